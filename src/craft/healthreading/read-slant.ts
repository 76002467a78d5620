import { measureEdge } from '#craft/couponreading';
import type { SampledPicture } from '#craft/patchreading';
import { mapPoint, type PlaneMap, type Point } from '#craft/reading';
import type { HealthSlant } from '#craft/testsheet';
import { channelOf, onlyChannel, scaleAt } from './channel.js';
import type { Measured, SharpnessReading } from './types.js';

/** Left out at each corner, share of a side: ink spreads round corners. */
const cornerShare = 0.14;
/** A width below so many pixels is mostly the reader's own softness. */
const readersPixels = 2;
const leastSdPixels = 0.02;

/** The four edges of a slanted square in the channel that shows its ink. */
export function readSlant(
  picture: SampledPicture,
  map: PlaneMap,
  { ink, corners, clearMm }: HealthSlant,
): Measured<SharpnessReading> {
  const own = onlyChannel(picture, channelOf[ink]);
  const seen = corners.map(({ xMm, yMm }) => mapPoint(map, { x: xMm, y: yMm }));
  const middle: Point = {
    x: seen.reduce((sum, { x }) => sum + x, 0) / 4,
    y: seen.reduce((sum, { y }) => sum + y, 0) / 4,
  };
  const scale = scaleAt(map, { x: corners[0]!.xMm, y: corners[0]!.yMm });
  const perMm = Math.sqrt(scale.across * scale.along);
  const umAPixel = 1000 / perMm;
  const why = new Set<string>();
  const halves: number[] = [];
  const edges = seen.flatMap((a, i) => {
    const b = seen[(i + 1) % 4]!;
    const at = (t: number): Point => ({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) });
    const edge = measureEdge(own, at(cornerShare), at(1 - cornerShare), middle, clearMm * perMm);
    if (typeof edge === 'string') {
      why.add(edge);
      return [];
    }
    halves.push(...edge.halvesPixels.map((width) => width - edge.widthPixels));
    return [{ isUpright: i % 2 === 1, ...edge }];
  });
  if (edges.length === 0) {
    return {
      isMeasured: false,
      because: why.has('outside')
        ? 'its slanted square lies outside the picture'
        : why.has('along-pixels')
          ? 'its edges lie along the picture’s rows; turn the sheet a little'
          : 'its slanted square shows no clear edge',
    };
  }
  const widths = (isUpright: boolean): number[] =>
    edges.filter((edge) => edge.isUpright === isUpright).map(({ widthPixels }) => widthPixels * umAPixel);
  const transfers = edges.flatMap(({ mtf50PerPixel: v }) => (v === null ? [] : [v * perMm]));
  const spread = Math.sqrt(halves.reduce((sum, d) => sum + d * d, 0) / Math.max(1, halves.length));
  return {
    isMeasured: true,
    acrossUm: meanOf(widths(true)),
    alongUm: meanOf(widths(false)),
    sdUm: umAPixel * Math.hypot(spread / Math.sqrt(edges.length), leastSdPixels),
    mtf50PerMm: meanOf(transfers),
    isReadersLimit: meanOf(edges.map(({ widthPixels }) => widthPixels))! < readersPixels,
  };
}

const meanOf = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, v) => sum + v, 0) / values.length;
