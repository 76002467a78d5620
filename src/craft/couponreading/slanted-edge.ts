import type { SampledPicture } from '#craft/patchreading';
import type { Point } from '#craft/reading';
import { edgeSamples, fitEdgeLine } from './edge-line.js';
import { edgeSpread, mtf50PerPixel, riseWidthPixels } from './edge-spread.js';

/** One straight edge in a picture, in its pixels. */
export interface SlantedEdge {
  /** 10–90 %. */
  readonly widthPixels: number;
  /** Cycles a pixel at half the contrast; null when it never falls so low below one. */
  readonly mtf50PerPixel: number | null;
  /** The width of each half of its length alone: their difference tells how sure it is. */
  readonly halvesPixels: readonly number[];
  /** Off the picture's rows or columns, whichever is nearer. */
  readonly slantDegrees: number;
  /** The fitted step's σ and where the edge is beside where it was expected. */
  readonly sigmaPixels: number;
  readonly offsetPixels: number;
  /** Light minus dark over their sum. */
  readonly contrast: number;
  /** The edge is softer than the white beside it is wide: the width is then a guess from its middle. */
  readonly isTooSoft: boolean;
}

/** outside: not wholly in the picture · no-edge: no clear step · along-pixels: lies along rows, columns or diagonals of pixels */
export type NoEdge = 'outside' | 'no-edge' | 'along-pixels';

/**
 * Width and contrast transfer of a slanted edge (ISO 12233, e-SFR).
 *
 * @param from one end and `to` the other, roughly; corners should be left out
 * @param dark any place on its dark side
 * @param reachPixels how far to either side nothing else is printed
 */
export function measureEdge(
  picture: SampledPicture,
  from: Point,
  to: Point,
  dark: Point,
  reachPixels: number,
): SlantedEdge | NoEdge {
  const samples = edgeSamples(picture, from, to, dark, reachPixels);
  if (!samples) return 'outside';
  const line = fitEdgeLine(samples);
  if (!line) return 'no-edge';
  const spread = edgeSpread(samples, line);
  if (!spread) return 'along-pixels';
  const widthPixels = riseWidthPixels(spread);
  if (widthPixels === null) return 'no-edge';
  const halves = (
    [
      [-0.5, 0],
      [0, 0.5],
    ] as const
  ).flatMap((part) => {
    const half = edgeSpread(samples, line, part);
    const width = half && riseWidthPixels(half);
    return width === null ? [] : [width];
  });
  const quarter = Math.PI / 2;
  const angle = samples.angle + Math.atan2(line.turn, samples.lengthPixels);
  const slant = Math.abs(angle - quarter * Math.round(angle / quarter));
  return {
    widthPixels,
    mtf50PerPixel: mtf50PerPixel(spread),
    halvesPixels: halves,
    slantDegrees: (slant * 180) / Math.PI,
    sigmaPixels: line.sigmaPixels,
    offsetPixels: line.offset,
    contrast: (line.light - line.dark) / (line.light + line.dark),
    isTooSoft: line.sigmaPixels > reachPixels / 3,
  };
}
