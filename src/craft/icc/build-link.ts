import { unsupportedProfile } from './broken.js';
import { buildGrid } from './build-grid.js';
import { buildShaper } from './build-shaper.js';
import { builtinProfile } from './builtin.js';
import { deviceSpace } from './device-side.js';
import { linkFunction } from './evaluate-link.js';
import type { DeviceLink } from './link.js';
import { testColours } from './test-colours.js';
import type { IccProfile, TransformOptions } from './types.js';

/** Two profiles count as one when no colour differs by this much, in 8-bit codes: less than rounding can show. */
const sameWithin8 = 0.5;

/**
 * The whole way from source to destination, worked out once. Identity where the two sides are the same matrix RGB (as two
 * makers' sRGB are), a shaper from matrix to matrix, otherwise a grid with its measured error.
 *
 * @throws Problem `profile.unsupported` if the destination is not RGB or a side lacks the direction needed.
 */
export function buildLink(options: TransformOptions): DeviceLink {
  if (deviceSpace(options.destination) !== 'RGB') {
    throw unsupportedProfile(
      'The printer profile is not for RGB.',
      'Use an RGB output profile: the printer driver is sent RGB.',
    );
  }
  const shaper = buildShaper(options);
  if (shaper === null) return buildGrid(options);
  return changesNothing(shaper) ? { kind: 'identity', inputChannels: 3 } : shaper;
}

/** Printer RGB → sRGB for the screen, relative to the paper's white, the black as it is. */
export function buildProofLink(path: IccProfile): DeviceLink {
  return buildLink({
    source: path,
    destination: builtinProfile('srgb'),
    intent: 'relative',
    blackPointCompensation: false,
  });
}

function changesNothing(link: DeviceLink): boolean {
  const run = linkFunction(link);
  const output = new Float64Array(3);
  const steps = [0, 1, 2, 4, 8, 16, 32, 64, 96, 128, 160, 192, 224, 254, 255];
  const colours = [...testColours(3, 1000), ...steps.map((v) => [v / 255, v / 255, v / 255])];
  return colours.every((colour) => {
    run(colour, output);
    return [0, 1, 2].every((i) => Math.abs(output[i]! - colour[i]!) * 255 < sameWithin8);
  });
}
