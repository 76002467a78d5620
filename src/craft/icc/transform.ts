import { destinationBlackPoint, sourceBlackPoint } from './black-point.js';
import { clipUnit } from './clip.js';
import { deviceChannels, sideFromPcs, sideToPcs, xyzOf } from './device-side.js';
import type { InPlace } from './lut-function.js';
import { labToXyzInPlace, xyzToLabInPlace } from './pcs-encoding.js';
import { applyScale, blackPointScale, isNegligible, type PcsScale } from './pcs-scale.js';
import type { IccProfile, Intent, Transform, TransformOptions } from './types.js';

type Xyz = readonly [number, number, number];

/**
 * The exact chain device → PCS → device in double precision: tables by intent (a table outranks the matrix, a missing
 * intent falls back to perceptual), legacy and new Lab encodings, black point compensation (always on for perceptual and
 * saturation into a version 4 profile), absolute colorimetry by the media whites. Follows Little CMS where ICC.1 is open.
 *
 * @throws Problem `profile.unsupported` if a side lacks the direction needed.
 */
export function createTransform(options: TransformOptions): Transform {
  const inputChannels = deviceChannels(options.source);
  const outputChannels = deviceChannels(options.destination);
  const up = sideToPcs(options.source, options.intent);
  const down = sideFromPcs(options.destination, options.intent);
  const between = connect(up.pcs, down.pcs, connectionScale(options));
  const io = new Float64Array(16);
  return {
    inputChannels,
    outputChannels,
    convert(input, output = new Float64Array(outputChannels)) {
      for (let i = 0; i < inputChannels; i += 1) io[i] = input[i]!;
      up.run(io);
      between(io);
      down.run(io);
      for (let i = 0; i < outputChannels; i += 1) {
        output[i] = clipUnit(io[i]!);
      }
      return output;
    },
  };
}

/** What happens to XYZ between the two profiles; null: nothing. */
export function connectionScale(options: TransformOptions): PcsScale | null {
  const { source, destination, intent } = options;
  if (intent === 'absolute') {
    const from = mediaWhite(source);
    const to = mediaWhite(destination);
    const scale: PcsScale = { scale: [from[0] / to[0], from[1] / to[1], from[2] / to[2]], offset: [0, 0, 0] };
    return isNegligible(scale) ? null : scale;
  }
  const always = intent !== 'relative' && destination.header.version.major >= 4;
  if (!options.blackPointCompensation && !always) return null;
  const scale = blackPointScale(sourceBlackPoint(source, intent), destinationBlackPoint(destination, intent));
  return isNegligible(scale) ? null : scale;
}

/** Media white under D50. Version 2 display profiles often state their own white; theirs is taken as D50. */
export function mediaWhite(profile: IccProfile): Xyz {
  const white = xyzOf(profile, 'wtpt');
  const adapted = profile.header.version.major < 4 && profile.header.deviceClass === 'mntr';
  return white === undefined || adapted || white.some((v) => v <= 0) ? [0.9642, 1, 0.8249] : white;
}

function connect(from: 'XYZ' | 'Lab', to: 'XYZ' | 'Lab', scale: PcsScale | null): InPlace {
  const steps: InPlace[] = [];
  if (from === 'Lab' && (to === 'XYZ' || scale !== null)) steps.push(labToXyzInPlace);
  if (scale !== null) steps.push(applyScale(scale));
  if (to === 'Lab' && (from === 'XYZ' || scale !== null)) steps.push(xyzToLabInPlace);
  return (io) => {
    for (const step of steps) step(io);
  };
}

/** Device values 0..1 → CIELAB (D50, 2°, media-relative) through the profile's table or matrix. */
export function deviceToLab(
  profile: IccProfile,
  intent: Exclude<Intent, 'absolute'> = 'relative',
): (device: ArrayLike<number>) => [number, number, number] {
  const channels = deviceChannels(profile);
  const side = sideToPcs(profile, intent);
  const io = new Float64Array(16);
  return (device) => {
    for (let i = 0; i < channels; i += 1) io[i] = device[i]!;
    side.run(io);
    if (side.pcs === 'XYZ') xyzToLabInPlace(io);
    return [io[0]!, io[1]!, io[2]!];
  };
}

/** CIELAB (D50, 2°, media-relative) → device values 0..1, clipped, through the profile's table or matrix. */
export function labToDevice(
  profile: IccProfile,
  intent: Exclude<Intent, 'absolute'> = 'relative',
): (lab: ArrayLike<number>) => number[] {
  const channels = deviceChannels(profile);
  const side = sideFromPcs(profile, intent);
  const io = new Float64Array(16);
  return (lab) => {
    for (let i = 0; i < 3; i += 1) io[i] = lab[i]!;
    if (side.pcs === 'XYZ') labToXyzInPlace(io);
    side.run(io);
    return Array.from({ length: channels }, (_, i) => clipUnit(io[i]!));
  };
}
