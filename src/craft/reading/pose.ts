import type { MarkFrame } from '#craft/sheet';
import {
  areaFactor,
  fitAffine,
  fitHomography,
  type PlaneMap,
  type Point,
  type PointPair,
  rmsDistance,
} from './plane.js';

/** A corner marker as found: its corners TL, TR, BR, BL as the marker should read, in picture coordinates. */
export interface FoundMarker {
  readonly id: number;
  readonly corners: readonly Point[];
}

/** How the sheet lies in the picture. */
export interface SheetPose {
  /** Sheet millimetres (as it should read) → picture pixels. */
  readonly toPicture: PlaneMap;
  /** The same without perspective; null with fewer than two markers. */
  readonly flat: PlaneMap | null;
  readonly seenMirrored: boolean;
  readonly pairs: readonly PointPair[];
  readonly markersUsed: readonly number[];
  /** Root mean square distance of marker corners from their places, in pixels, with and without perspective. */
  readonly rmsPixels: number;
  readonly flatRmsPixels: number;
}

/** Worst corner misfit that can still be one flat-ish sheet, in shares of a marker's side. */
const worstMisfit = 0.12;

/** Artwork may hold things that look like a marker; more look-alikes than this of one corner are not tried. */
const mostLookAlikes = 3;

/**
 * Lay the frame into the picture. Where a corner was found more than once (artwork can look like a marker), the one
 * that agrees with the others counts; markers that agree with none are left out.
 *
 * @param anchor a marker known to be true, such as the one beside which the code was read.
 * @returns null when no marker of the frame was found or no two agree (one alone is used as it is).
 */
export function poseOfSheet(
  frame: MarkFrame,
  found: readonly FoundMarker[],
  anchor?: FoundMarker,
): SheetPose | null {
  let choices: FoundMarker[][] = [[]];
  for (const { id } of frame.markers) {
    const these =
      anchor?.id === id ? [anchor] : found.filter((marker) => marker.id === id).slice(0, mostLookAlikes);
    if (these.length > 0) choices = choices.flatMap((chosen) => these.map((marker) => [...chosen, marker]));
  }
  let best: SheetPose | null = null;
  for (const choice of choices) {
    const pose = poseWithout(frame, choice, anchor);
    if (pose && (!best || isBetter(pose, best))) best = pose;
  }
  return best;
}

const isBetter = (pose: SheetPose, than: SheetPose): boolean =>
  pose.markersUsed.length === than.markersUsed.length
    ? pose.rmsPixels < than.rmsPixels
    : pose.markersUsed.length > than.markersUsed.length;

/** Leave out markers, each time the one without which the others agree best, until they agree. */
function poseWithout(
  frame: MarkFrame,
  choice: readonly FoundMarker[],
  anchor: FoundMarker | undefined,
): SheetPose | null {
  let markers = choice;
  while (markers.length > 0) {
    const pose = fitPose(frame, markers);
    if (pose && (markers.length === 1 || pose.rmsPixels <= worstMisfit * meanSide(markers))) return pose;
    if (markers.length === 1 || (markers.length === 2 && !anchor)) return null;
    const droppable = markers.filter((marker) => marker !== anchor);
    const without = droppable.map((marker) => markers.filter((other) => other !== marker));
    const misfit = (some: readonly FoundMarker[]): number => fitPose(frame, some)?.rmsPixels ?? Infinity;
    markers = without.reduce((least, next) => (misfit(next) < misfit(least) ? next : least));
  }
  return null;
}

function fitPose(frame: MarkFrame, markers: readonly FoundMarker[]): SheetPose | null {
  const pairs = markers.flatMap(({ id, corners }): PointPair[] => {
    const place = frame.markers.find((marker) => marker.id === id);
    if (!place) return [];
    const { xMm, yMm, widthMm, heightMm } = place.rect;
    const on = [
      { x: xMm, y: yMm },
      { x: xMm + widthMm, y: yMm },
      { x: xMm + widthMm, y: yMm + heightMm },
      { x: xMm, y: yMm + heightMm },
    ];
    return on.map((from, i) => ({ from, to: corners[i]! }));
  });
  const toPicture = fitHomography(pairs);
  if (!toPicture) return null;
  const signs = pairs.map(({ from }) => Math.sign(areaFactor(toPicture, from)));
  // A sheet cannot be seen from both sides at once.
  if (signs.some((sign) => sign !== signs[0])) return null;
  const flat = markers.length > 1 ? fitAffine(pairs) : null;
  return {
    toPicture,
    flat,
    seenMirrored: signs[0] === -1,
    pairs,
    markersUsed: markers.map(({ id }) => id),
    rmsPixels: rmsDistance(toPicture, pairs),
    flatRmsPixels: flat ? rmsDistance(flat, pairs) : Number.POSITIVE_INFINITY,
  };
}

function meanSide(markers: readonly FoundMarker[]): number {
  const sides = markers.flatMap(({ corners }) =>
    corners.map((a, i) => Math.hypot(a.x - corners[(i + 1) % 4]!.x, a.y - corners[(i + 1) % 4]!.y)),
  );
  return sides.reduce((sum, side) => sum + side, 0) / Math.max(1, sides.length);
}
