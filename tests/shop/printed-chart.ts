import { labFromSrgb, linearToSrgb, type Triple } from '#craft/colour';
import { fieldOf } from '../simulator/chart.js';
import { ink, press, scan, toFile, writtenSheet } from '../simulator/index.js';

/** A sheet's PNG as the program wrote it, printed and pressed by the simulator, scanned as a PNG. */
export async function scanOf(
  png: Buffer,
  ppi: number,
  {
    surface = 'piece',
    seed = 1,
    turnDegrees = 1.2,
  }: { surface?: 'paper' | 'piece'; seed?: number; turnDegrees?: number } = {},
): Promise<Buffer> {
  const printed = ink(await writtenSheet(png, ppi));
  const lying = surface === 'paper' ? printed : press(printed);
  return toFile(scan(lying, { ppi, turnDegrees, seed, noise: 0.003 }), { format: 'png', ppi });
}

/**
 * What a device colour came to, told by the simulator alone: a solid field of it through its ink and press, beside the
 * bare ground, sRGB's primaries taken for the eye's.
 */
export function trueRelativeLab(deviceRgb: readonly number[], surface: 'paper' | 'piece' = 'piece'): Triple {
  const white = fieldOf([255, 255, 255], surface);
  return labFromSrgb(
    fieldOf(deviceRgb, surface).map((v, c) => linearToSrgb(v / white[c]!)) as unknown as Triple,
  );
}
