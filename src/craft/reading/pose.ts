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

/**
 * Lay the frame into the picture. Markers that do not agree with the others are left out, worst first.
 * @returns null when no marker of the frame was found or no two agree (one alone is used as it is).
 */
export function poseOfSheet(frame: MarkFrame, found: readonly FoundMarker[]): SheetPose | null {
  let markers = found.filter(({ id }) => frame.markers.some((marker) => marker.id === id));
  while (markers.length > 0) {
    const pose = fitPose(frame, markers);
    if (pose && (markers.length === 1 || pose.rmsPixels <= worstMisfit * meanSide(markers))) return pose;
    if (markers.length <= 2) return null;
    // Leave out the one without which the others agree best.
    const without = markers.map((_, i) => markers.filter((__, j) => j !== i));
    markers = without.reduce((best, next) =>
      (fitPose(frame, next)?.rmsPixels ?? Infinity) < (fitPose(frame, best)?.rmsPixels ?? Infinity)
        ? next
        : best,
    );
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
