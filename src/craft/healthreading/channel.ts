import type { SampledPicture } from '#craft/patchreading';
import { mapPoint, type PlaneMap, type Point } from '#craft/reading';
import type { HealthInk } from '#craft/testsheet';

/** Which of the reader's channels shows an ink darkest: its complement; for black the green one. */
export const channelOf: Readonly<Record<HealthInk, 0 | 1 | 2>> = { cyan: 0, magenta: 1, yellow: 2, black: 1 };

/** Bilinear light of one channel; pixel middles at .5. NaN outside the picture. */
export function channelAt(picture: SampledPicture, channel: 0 | 1 | 2, x: number, y: number): number {
  const { width, height, data, toLinear } = picture;
  const [px, py] = [x - 0.5, y - 0.5];
  if (!(px >= 0 && py >= 0 && px <= width - 1 && py <= height - 1)) return Number.NaN;
  const x0 = Math.min(Math.floor(px), width - 2);
  const y0 = Math.min(Math.floor(py), height - 2);
  const [fx, fy] = [px - x0, py - y0];
  const curve = toLinear[channel];
  const at = 3 * (y0 * width + x0) + channel;
  const below = at + 3 * width;
  return (
    (curve[data[at]!]! * (1 - fx) + curve[data[at + 3]!]! * fx) * (1 - fy) +
    (curve[data[below]!]! * (1 - fx) + curve[data[below + 3]!]! * fx) * fy
  );
}

/** Pixels a millimetre at a place, along the sheet's x and y. */
export function scaleAt(map: PlaneMap, { x, y }: Point): { across: number; along: number } {
  const h = 0.5;
  const [left, right] = [mapPoint(map, { x: x - h, y }), mapPoint(map, { x: x + h, y })];
  const [above, below] = [mapPoint(map, { x, y: y - h }), mapPoint(map, { x, y: y + h })];
  return {
    across: Math.hypot(right.x - left.x, right.y - left.y) / (2 * h),
    along: Math.hypot(below.x - above.x, below.y - above.y) / (2 * h),
  };
}

/** Means over a strip of the sheet, one value a step; NaN where it leaves the picture. */
export function stripProfile(
  picture: SampledPicture,
  map: PlaneMap,
  channel: 0 | 1 | 2,
  strip: { readonly alongFrom: number; readonly stepMm: number; readonly count: number } & {
    readonly acrossFrom: number;
    readonly acrossTo: number;
    readonly places: number;
    /** Which of the sheet's axes the profile goes along. */
    readonly axis: 'x' | 'y';
  },
): Float64Array {
  const values = new Float64Array(strip.count);
  for (let i = 0; i < strip.count; i += 1) {
    const along = strip.alongFrom + i * strip.stepMm;
    let sum = 0;
    for (let k = 0; k < strip.places; k += 1) {
      const across = strip.acrossFrom + ((k + 0.5) / strip.places) * (strip.acrossTo - strip.acrossFrom);
      const place = strip.axis === 'y' ? { x: across, y: along } : { x: along, y: across };
      const { x, y } = mapPoint(map, place);
      sum += channelAt(picture, channel, x, y);
    }
    values[i] = sum / strip.places;
  }
  return values;
}

/** The picture with one channel alone, for readers that look at the mean of three. */
export function onlyChannel(picture: SampledPicture, channel: 0 | 1 | 2): SampledPicture {
  const nothing = new Float32Array(picture.toLinear[0].length);
  const own = picture.toLinear[channel].map((v) => 3 * v);
  const toLinear = [0, 1, 2].map((c) => (c === channel ? own : nothing));
  return { ...picture, toLinear: toLinear as unknown as SampledPicture['toLinear'] };
}
