import type { LinearRgb, SampledPicture } from '#craft/patchreading';
import { mapPoint, type PlaneMap } from '#craft/reading';

export interface Spot {
  readonly rgb: LinearRgb;
  /** Of the samples that were used, relative to the value. */
  readonly spread: number;
  /** So many samples stand at the end of the reader's range that the value means little. */
  readonly clipped: boolean;
}

const samplesAcross = 14;
/** A sample further than so many standard deviations (by the median of deviations) from the median is left out. */
const farSds = 3.5;

/**
 * Robust mean of a square piece of a plane seen in a picture, in linear light: dust, glints and letters are left out.
 * @param half of the side looked at, in the plane's units. Null when it is not wholly in the picture.
 */
export function spotValue(
  picture: SampledPicture,
  toPicture: PlaneMap,
  centre: { readonly x: number; readonly y: number },
  half: number,
): Spot | null {
  const { width, height, data, toLinear } = picture;
  const most = toLinear[0].length - 1;
  const channels: number[][] = [[], [], []];
  let clipped = 0;
  for (let k = 0; k < samplesAcross ** 2; k += 1) {
    const u = half * ((2 * ((k % samplesAcross) + 0.5)) / samplesAcross - 1);
    const v = half * ((2 * (Math.floor(k / samplesAcross) + 0.5)) / samplesAcross - 1);
    const seen = mapPoint(toPicture, { x: centre.x + u, y: centre.y + v });
    const [px, py] = [Math.floor(seen.x), Math.floor(seen.y)];
    if (!(px >= 0 && py >= 0 && px < width && py < height)) return null;
    const at = 3 * (py * width + px);
    if (data[at] === most || data[at + 1] === most || data[at + 2] === most) clipped += 1;
    for (let c = 0; c < 3; c += 1) channels[c]!.push(toLinear[c]![data[at + c]!]!);
  }
  const used = new Array<boolean>(samplesAcross ** 2).fill(true);
  for (const values of channels) {
    const middle = medianOf(values);
    const spread = 1.4826 * medianOf(values.map((v) => Math.abs(v - middle)));
    // Half a step of 8 bits in the shadows, a step in the lights: below it nothing is told apart.
    const far = farSds * Math.max(spread, 0.0008 + 0.012 * middle);
    values.forEach((v, i) => {
      if (Math.abs(v - middle) > far) used[i] = false;
    });
  }
  const rgb = channels.map((values) => meanOf(values.filter((_, i) => used[i]))) as unknown as LinearRgb;
  const spread = Math.max(
    ...channels.map((values, c) => {
      const squares = values.filter((_, i) => used[i]).map((v) => (v - rgb[c]!) ** 2);
      return Math.sqrt(meanOf(squares)) / Math.max(0.01, rgb[c]!);
    }),
  );
  return { rgb, spread, clipped: clipped > 0.05 * used.length };
}

function medianOf(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  return sorted[sorted.length >> 1]!;
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, v) => sum + v, 0) / Math.max(1, values.length);
