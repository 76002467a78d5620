import { mapPoint, type Point, type SheetPose } from '#craft/reading';
import type { ChartLayout } from '#craft/testsheet';
import { median, sampleAt } from './picture.js';
import { biweights, dot, powersOf, weightedFit } from './polynomial.js';
import type { LinearRgb, SampledPicture } from './types.js';

/** The reader's light over the sheet, told from the bare ground between the patches. */
export interface LightField {
  /** Bare ground as the smooth field has it. */
  at(place: Point): LinearRgb;
  /** By how much the bare ground near a place differs from the field: 0.1 = a tenth lighter. Null: none seen near. */
  oddness(place: Point): number | null;
  /** Ordinary scatter of the ground about the field. */
  readonly scatter: number;
  /** Share of the ground that is as light as the picture can hold, over the whole sheet and near a place. */
  readonly clippedShare: number;
  clippedNear(place: Point): number;
}

export interface Ground {
  readonly at: Point;
  readonly rgb: LinearRgb;
  readonly isClipped: boolean;
}

/** Closer than this to the paper's edge nothing is looked at: the edge may be torn, or the lid shows. */
const edgeMm = 1.5;

/**
 * A smooth field through the ground's light, its logarithm a polynomial of second or fourth degree, robust against
 * dust, glare and neighbours' ink. Null when too little ground is in the picture.
 */
export function lightField(
  picture: SampledPicture,
  layout: ChartLayout,
  pose: SheetPose,
  shiftNear: (place: Point) => Point,
): LightField | null {
  const grounds = groundPlaces(layout).flatMap(({ at, reach }): Ground[] => {
    const moved = shiftNear(at);
    const seen = groundAt(picture, pose, { x: at.x + moved.x, y: at.y + moved.y }, reach);
    return seen ? [{ at, ...seen }] : [];
  });
  if (grounds.length < 12) return null;
  const { area } = layout;
  const unit = ({ x, y }: Point): Point => ({
    x: (2 * (x - area.xMm)) / area.widthMm - 1,
    y: (2 * (y - area.yMm)) / area.heightMm - 1,
  });
  const degree = grounds.length >= 150 ? 4 : 2;
  const rows = grounds.map(({ at }) => {
    const { x, y } = unit(at);
    return powersOf(degree, x, y);
  });
  let weights = grounds.map(() => 1);
  let fits: Float64Array[] = [];
  let residuals: number[] = [];
  for (let round = 0; round < 8; round += 1) {
    const next = [0, 1, 2].map((c) =>
      weightedFit(
        rows,
        grounds.map(({ rgb }) => Math.log(Math.max(1e-4, rgb[c]!))),
        weights,
      ),
    );
    if (next.some((fit) => fit === null)) return null;
    fits = next as Float64Array[];
    residuals = grounds.map(
      ({ rgb }, i) =>
        [0, 1, 2].reduce((sum, c) => sum + Math.log(Math.max(1e-4, rgb[c]!)) - dot(fits[c]!, rows[i]!), 0) /
        3,
    );
    weights = biweights(residuals, 0.002);
  }
  const reachMm = 0.9 * layout.pitchMm;
  const xs = Float64Array.from(grounds, ({ at }) => at.x);
  const ys = Float64Array.from(grounds, ({ at }) => at.y);
  const near = (place: Point): number[] => {
    const found: number[] = [];
    for (let i = 0; i < xs.length; i += 1) {
      if (Math.abs(xs[i]! - place.x) < reachMm && Math.abs(ys[i]! - place.y) < reachMm) found.push(i);
    }
    return found;
  };
  return {
    at: (place) => {
      const { x, y } = unit(place);
      const row = powersOf(degree, x, y);
      return fits.map((fit) => Math.exp(dot(fit, row))) as unknown as LinearRgb;
    },
    oddness: (place) => {
      const about = near(place);
      // The second oddest of those about: a glint's edge shows at some corners only, a speck at one.
      const oddest = about.map((i) => residuals[i]!).sort((a, b) => Math.abs(b) - Math.abs(a));
      return oddest.length > 0 ? Math.expm1(oddest[Math.min(1, oddest.length - 1)]!) : null;
    },
    clippedShare: shareClipped(grounds),
    clippedNear: (place) => shareClipped(near(place).map((i) => grounds[i]!)),
    scatter: 1.4826 * median(residuals.map(Math.abs)),
  };
}

/** The crossings of the gaps, and the white round the registration marks. */
function groundPlaces(layout: ChartLayout): { at: Point; reach: number }[] {
  const { area, columns, rows, pitchMm, gapMm, registration, widthMm, heightMm } = layout;
  const places: { at: Point; reach: number }[] = [];
  for (let j = 0; j <= rows; j += 1) {
    for (let i = 0; i <= columns; i += 1) {
      places.push({ at: { x: area.xMm + i * pitchMm, y: area.yMm + j * pitchMm }, reach: 0.15 * gapMm });
    }
  }
  for (const { xMm, yMm, sideMm } of registration) {
    const off = (sideMm + pitchMm) / 4;
    for (const [sx, sy] of [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const) {
      places.push({ at: { x: xMm + sx * off, y: yMm + sy * off }, reach: 0.3 * gapMm });
    }
  }
  return places.filter(
    ({ at: { x, y } }) => x > edgeMm && y > edgeMm && x < widthMm - edgeMm && y < heightMm - edgeMm,
  );
}

/** Median of 25 samples, channel by channel; null when one lies outside the picture. */
export function groundAt(
  picture: SampledPicture,
  pose: Pick<SheetPose, 'toPicture'>,
  { x, y }: Point,
  reach: number,
): Omit<Ground, 'at'> | null {
  const most = picture.toLinear[0].length - 1;
  let clipped = 0;
  const channels: [number[], number[], number[]] = [[], [], []];
  for (let k = 0; k < 25; k += 1) {
    const u = reach * ((k % 5) / 2 - 1);
    const v = reach * (Math.floor(k / 5) / 2 - 1);
    const seen = mapPoint(pose.toPicture, { x: x + u, y: y + v });
    const sample = sampleAt(picture, seen.x, seen.y);
    if (sample < 0) return null;
    channels.forEach((values, c) => {
      const value = picture.data[sample + c]!;
      if (value === most) clipped += 1;
      values.push(picture.toLinear[c]![value]!);
    });
  }
  // Of 75 values, a third: one whole channel, or as many.
  return { rgb: channels.map((values) => median(values)) as unknown as LinearRgb, isClipped: clipped >= 25 };
}

const shareClipped = (some: readonly Ground[]): number =>
  some.filter(({ isClipped }) => isClipped).length / Math.max(1, some.length);
