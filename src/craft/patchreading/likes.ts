import { deltaE00, labFromSrgb, linearToSrgb } from '#craft/colour';
import { median } from './picture.js';
import type { ChartReading, DistinctColour, LinearRgb, PatchReading, Repeatability } from './types.js';

/** Patches printed with the same device colour. */
export function likesOf(patches: readonly PatchReading[]): PatchReading[][] {
  const likes = new Map<string, PatchReading[]>();
  for (const patch of patches) {
    const key = patch.deviceRgb.join();
    const members = likes.get(key);
    if (members) members.push(patch);
    else likes.set(key, [patch]);
  }
  return [...likes.values()];
}

/** A step of 8 bits in the lights, 0.009, spread evenly: 0.009/√12. No reading is surer. */
const leastSd = 0.0026;

/**
 * What a model is made from: each device colour once, with the pressing's unevenness taken out, and how sure it is.
 * Colours of which no patch is sound are missing.
 */
export function distinctColours({ patches, repeatability: { sd } }: ChartReading): DistinctColour[] {
  return likesOf(patches.filter(({ isSound }) => isSound)).map((members) => ({
    deviceRgb: members[0]!.deviceRgb,
    rgb: meanOf(members),
    sd: sd.map((v) => Math.max(leastSd, v) / Math.sqrt(members.length)) as unknown as LinearRgb,
    patches: members.map(({ index }) => index),
  }));
}

const meanOf = (members: readonly PatchReading[]): LinearRgb =>
  [0, 1, 2].map(
    (c) => members.reduce((sum, { evenRgb }) => sum + evenRgb[c]!, 0) / members.length,
  ) as unknown as LinearRgb;

/** A patch is unlike its likes when it lies so many of their standard deviations away, and this far (of the ground). */
const farSds = 6;
const leastFar = 0.02;

/** Indices of patches that came out unlike at least three others of their colour. */
export function unlikeOnes(patches: readonly PatchReading[], ground: LinearRgb): Set<number> {
  const unlike = new Set<number>();
  for (const members of likesOf(patches)) {
    if (members.length < 4) continue;
    for (let c = 0; c < 3; c += 1) {
      const middle = median(members.map(({ evenRgb }) => evenRgb[c]!));
      const spread = 1.4826 * median(members.map(({ evenRgb }) => Math.abs(evenRgb[c]! - middle)));
      for (const { evenRgb, index } of members) {
        const off = Math.abs(evenRgb[c]! - middle);
        if (off > farSds * spread && off > leastFar * ground[c]!) unlike.add(index);
      }
    }
  }
  return unlike;
}

/** Over all colours of which there are at least two sound patches. Null when there are fewer than four in all. */
export function repeatability(patches: readonly PatchReading[], ground: LinearRgb): Repeatability | null {
  const groups = likesOf(patches.filter(({ isSound }) => isSound)).filter(({ length }) => length > 1);
  const count = groups.reduce((sum, { length }) => sum + length, 0);
  const degrees = count - groups.length;
  if (degrees < 4) return null;
  const squares = [0, 0, 0];
  let differences = 0;
  for (const members of groups) {
    const mean = meanOf(members);
    const middle = labOf(mean, ground);
    for (const { evenRgb } of members) {
      evenRgb.forEach((v, c) => {
        squares[c]! += (v - mean[c]!) ** 2;
      });
      // The mean of a few lies nearer to each of them than the truth does.
      differences +=
        deltaE00(labOf(evenRgb, ground), middle) * Math.sqrt(members.length / (members.length - 1));
    }
  }
  return {
    sd: squares.map((sum) => Math.sqrt(sum / degrees)) as unknown as LinearRgb,
    meanDeltaE00: differences / count,
    patches: count,
  };
}

const labOf = (rgb: LinearRgb, ground: LinearRgb): ReturnType<typeof labFromSrgb> =>
  labFromSrgb(rgb.map((v, c) => linearToSrgb(Math.max(0, v / ground[c]!))) as unknown as LinearRgb);
