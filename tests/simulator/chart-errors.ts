import { deltaE00, labFromSrgb, linearToSrgb } from '#craft/colour';
import type { ChartReading, LinearRgb } from '#craft/patchreading';
import { isProblem } from '#craft/problem';
import { fieldOf } from './chart.js';

/**
 * The truth is a solid field of each colour sent through the simulator's own ink and press; it knows nothing of
 * layouts or reading. Errors are CIEDE2000 with the reader's RGB taken as sRGB and the bare ground as white.
 */
export function errorsOf(
  reading: ChartReading,
  {
    surface = 'piece',
    which = 'evenRgb',
  }: { surface?: 'paper' | 'piece'; which?: 'evenRgb' | 'seenRgb' } = {},
): { mean: number; most: number } {
  const white = fieldOf([255, 255, 255], surface);
  const lab = (rgb: LinearRgb, ground: LinearRgb): ReturnType<typeof labFromSrgb> =>
    labFromSrgb(rgb.map((v, c) => linearToSrgb(Math.max(0, v / ground[c]!))) as unknown as LinearRgb);
  const errors = reading.patches
    .filter(({ isSound }) => isSound)
    .map((patch) =>
      deltaE00(lab(patch[which], reading.groundRgb), lab(fieldOf(patch.deviceRgb, surface), white)),
    );
  return {
    mean: errors.reduce((sum, e) => sum + e, 0) / errors.length,
    most: Math.max(...errors),
  };
}

export const soundShare = ({ patches }: ChartReading): number =>
  patches.filter(({ isSound }) => isSound).length / patches.length;

export async function said(work: Promise<unknown>): Promise<string> {
  try {
    await work;
  } catch (error) {
    if (isProblem(error)) return `${error.code}: ${error.message} ${error.remedy}`;
    throw error;
  }
  return 'nothing';
}
