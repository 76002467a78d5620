import { mapPoint, type Point, type SheetPose } from '#craft/reading';
import type { ChartLayout, ChartPatch } from '#craft/testsheet';
import { median, sampleAt } from './picture.js';
import { derivativeAt, pixelsPerMm, type Shift } from './sheet-map.js';
import type { SampledPicture } from './types.js';

/** Least part of the ground's light that a patch takes away, for its edges to be told. */
const leastContrast = 0.25;

/**
 * Where the edges of a patch say that it lies, beyond what was expected; null for light patches and where no clear
 * edges stand a patch's width apart.
 * @param expected how far the patch is thought to have moved
 */
export function shiftByEdges(
  picture: SampledPicture,
  layout: ChartLayout,
  pose: SheetPose,
  patch: ChartPatch,
  expected: Point,
): Shift | null {
  const side = patch.rect.widthMm;
  const at = { x: patch.rect.xMm + side / 2, y: patch.rect.yMm + side / 2 };
  const centre = { x: at.x + expected.x, y: at.y + expected.y };
  const scale = pixelsPerMm(derivativeAt(pose.toPicture, centre));
  const x = middleBetweenEdges(picture, pose, centre, 'x', side, layout.gapMm, scale);
  if (x === null) return null;
  const y = middleBetweenEdges(picture, pose, centre, 'y', side, layout.gapMm, scale);
  return y === null ? null : { at, by: { x: expected.x + x, y: expected.y + y } };
}

/** From the middle of one gap to the middle of the other, averaged over the middle half of the patch. */
function middleBetweenEdges(
  picture: SampledPicture,
  pose: SheetPose,
  centre: Point,
  along: 'x' | 'y',
  side: number,
  gap: number,
  scale: number,
): number | null {
  const half = side / 2 + gap / 2;
  const n = Math.min(96, Math.max(24, Math.ceil(4 * half * scale)));
  const step = (2 * half) / n;
  const lines = Math.min(8, Math.max(5, Math.round((side / 2) * scale)));
  const profile = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  for (let i = 0; i < n; i += 1) {
    const u = -half + (i + 0.5) * step;
    for (let j = 0; j < lines; j += 1) {
      const v = (side / 2) * ((j + 0.5) / lines - 0.5);
      const place =
        along === 'x' ? { x: centre.x + u, y: centre.y + v } : { x: centre.x + v, y: centre.y + u };
      const seen = mapPoint(pose.toPicture, place);
      const sample = sampleAt(picture, seen.x, seen.y);
      if (sample < 0) return null;
      for (let c = 0; c < 3; c += 1) {
        profile[c]![i]! += picture.toLinear[c]![picture.data[sample + c]!]! / lines;
      }
    }
  }
  const quarter = Math.floor(n / 4);
  const contrast = profile.map((p) => {
    const white = Math.min(p[0]!, p[n - 1]!);
    return { white, inner: median([...p.subarray(quarter, n - quarter)]) };
  });
  let best = 0;
  contrast.forEach(({ white, inner }, c) => {
    const than = contrast[best]!;
    if ((white - inner) / white > (than.white - than.inner) / than.white) best = c;
  });
  const { white, inner } = contrast[best]!;
  if (!((white - inner) / white > leastContrast)) return null;
  const p = profile[best]!;
  const level = (white + inner) / 2;
  let left: number | null = null;
  let right: number | null = null;
  for (let i = 0; i + 1 < n / 2; i += 1) {
    if (left === null && p[i]! > level && p[i + 1]! <= level) {
      left = i + (p[i]! - level) / (p[i]! - p[i + 1]!);
    }
    const k = n - 1 - i;
    if (right === null && p[k]! > level && p[k - 1]! <= level) {
      right = k - (p[k]! - level) / (p[k]! - p[k - 1]!);
    }
  }
  if (left === null || right === null || Math.abs((right - left) * step - side) > 0.4 * gap) return null;
  return -half + ((left + right) / 2 + 0.5) * step;
}
