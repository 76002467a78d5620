import type { SampledPicture } from '#craft/patchreading';
import { mapPoint, type Point, type SheetPose } from '#craft/reading';
import type { CouponLayout, EdgeSide } from '#craft/testsheet';
import { measureEdge } from './slanted-edge.js';
import type { CouponEdge, EdgeReading } from './types.js';

/** Left out at each corner, share of a side: dye spreads round corners. */
const cornerShare = 0.16;
const sides: readonly EdgeSide[] = ['top', 'right', 'bottom', 'left'];
/** A width below so many pixels is mostly the reader's own softness. */
const readersPixels = 2;
/** No width is known better than this share of a pixel, however alike the halves. */
const leastSdPixels = 0.02;

/** The four edges of the slanted square. `edge` is null when fewer than two could be read. */
export function readEdges(
  picture: SampledPicture,
  { edgeTarget }: CouponLayout,
  pose: SheetPose,
  pixelsAMm: number,
): { edge: EdgeReading | null; remarks: string[] } {
  const corners = edgeTarget.corners.map(({ xMm, yMm }) => mapPoint(pose.toPicture, { x: xMm, y: yMm }));
  const middle: Point = {
    x: corners.reduce((sum, { x }) => sum + x, 0) / 4,
    y: corners.reduce((sum, { y }) => sum + y, 0) / 4,
  };
  const umAPixel = 1000 / pixelsAMm;
  const halves: number[] = [];
  const edges = sides.map((side, i): CouponEdge => {
    const [a, b] = [corners[i]!, corners[(i + 1) % 4]!];
    const at = (t: number): Point => ({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) });
    const reach = edgeTarget.clearMm * pixelsAMm;
    const seen = measureEdge(picture, at(cornerShare), at(1 - cornerShare), middle, reach);
    if (typeof seen === 'string') return { side, isRead: false, why: seen };
    halves.push(...seen.halvesPixels);
    return {
      side,
      isRead: true,
      widthUm: seen.widthPixels * umAPixel,
      mtf50PerMm: seen.mtf50PerPixel === null ? null : seen.mtf50PerPixel * pixelsAMm,
      isTooSoft: seen.isTooSoft,
    };
  });
  const read = edges.filter((edge) => edge.isRead);
  if (read.length < 2) {
    return {
      edge: null,
      remarks: ['The slanted square’s edges could not be read; turn the coupon a little.'],
    };
  }
  const widthUm = meanOf(read.map((edge) => edge.widthUm))!;
  const transfers = read.flatMap(({ mtf50PerMm }) => (mtf50PerMm === null ? [] : [mtf50PerMm]));
  const of = (...wanted: EdgeSide[]): number | null =>
    meanOf(read.filter(({ side }) => wanted.includes(side)).map((edge) => edge.widthUm));
  const isReadersLimit = widthUm < readersPixels * umAPixel;
  const isTooSoft = read.some((edge) => edge.isTooSoft);
  return {
    edge: {
      widthUm,
      sdUm: umAPixel * Math.hypot(sdOfMean(halves), leastSdPixels),
      mtf50PerMm: meanOf(transfers),
      mtf50Sd: transfers.length < 2 ? null : sdOfMean(transfers),
      acrossUm: of('left', 'right'),
      alongUm: of('top', 'bottom'),
      pixelUm: umAPixel,
      isReadersLimit,
      edges,
    },
    remarks: [
      ...(isReadersLimit
        ? ['The edges are as sharp as this scan can show; scan at a higher resolution to tell them apart.']
        : []),
      ...(isTooSoft ? ['An edge is softer than the white beside it; its width is a rough one.'] : []),
    ],
  };
}

const meanOf = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, v) => sum + v, 0) / values.length;

function sdOfMean(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const mean = meanOf(values)!;
  const squares = values.reduce((sum, v) => sum + (v - mean) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1) / values.length);
}
