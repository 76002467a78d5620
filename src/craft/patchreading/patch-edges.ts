import type { Point, SheetPose } from '#craft/reading';
import type { ChartLayout, ChartPatch } from '#craft/testsheet';
import { median } from './picture.js';
import { derivativeAt, pixelsPerMm, type Shift } from './sheet-map.js';
import type { SampledPicture } from './types.js';

/** Least part of the ground's light that a patch takes away, for its edges to be told. */
const leastContrast = 0.25;

/** Places along a profile, and profiles averaged: more do not place the edges better. */
const mostPlaces = 64;
const mostLines = 5;

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
  const n = Math.min(mostPlaces, Math.max(24, Math.ceil(4 * half * scale)));
  const step = (2 * half) / n;
  const lines = Math.min(mostLines, Math.max(5, Math.round((side / 2) * scale)));
  const profile = [new Float64Array(n), new Float64Array(n), new Float64Array(n)] as const;
  const [reds, greens, blues] = profile;
  const { data, width, height, toLinear } = picture;
  const [red, green, blue] = toLinear;
  // mapPoint written out: this is the innermost loop of the reading.
  const map = pose.toPicture;
  const [ux, uy] = along === 'x' ? [1, 0] : [0, 1];
  for (let j = 0; j < lines; j += 1) {
    const v = (side / 2) * ((j + 0.5) / lines - 0.5);
    // Each profile begins a little later, so that together they see the edges finer than their own steps.
    const first = half - step / 2 - step * ((j + 0.5) / lines - 0.5);
    const x0 = centre.x + uy * v - ux * first;
    const y0 = centre.y + ux * v - uy * first;
    for (let i = 0; i < n; i += 1) {
      const x = x0 + ux * i * step;
      const y = y0 + uy * i * step;
      const w = map[6] * x + map[7] * y + map[8];
      const px = Math.floor((map[0] * x + map[1] * y + map[2]) / w);
      const py = Math.floor((map[3] * x + map[4] * y + map[5]) / w);
      if (!(px >= 0 && py >= 0 && px < width && py < height)) return null;
      const sample = 3 * (py * width + px);
      reds[i]! += red[data[sample]!]!;
      greens[i]! += green[data[sample + 1]!]!;
      blues[i]! += blue[data[sample + 2]!]!;
    }
  }
  for (const sums of profile) for (let i = 0; i < n; i += 1) sums[i]! /= lines;
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
