import { mapPoint, type Point, type SheetPose } from '#craft/reading';
import type { ChartLayout, RegistrationMark } from '#craft/testsheet';
import { lightAt, smallest } from './picture.js';
import { derivativeAt, onSheet, pixelsPerMm, type Shift, shiftAt } from './sheet-map.js';
import type { SampledPicture } from './types.js';

/** How far from its expected place a mark is looked for; marks tell of their neighbours, so this is a difference. */
const searchMm = 2.5;
/** Places along a side of the part looked at: a mark's middle is then true to a few hundredths of a millimetre. */
const mostPlaces = 64;
/** Neighbouring marks move together: how far one may stray from what all others say, mm. */
const strayMm = 2;

export interface FoundRegistration {
  /** Of corner markers and registration marks. */
  readonly shifts: readonly Shift[];
  readonly found: number;
  readonly seen: readonly Point[];
  /** Width of the Gaussian for `shiftAt`. */
  readonly reachMm: number;
}

/**
 * The registration marks, from the corner markers inward, each looked for where those found before say it is: so a
 * curled or stretched sheet is followed step by step.
 */
export function findRegistration(
  picture: SampledPicture,
  layout: ChartLayout,
  pose: SheetPose,
): FoundRegistration {
  const reachMm = spacing(layout.registration);
  const corners = cornerShifts(pose);
  const known: Shift[] = [...corners];
  const waiting = layout.registration.map((mark) => ({ mark, distance: Number.POSITIVE_INFINITY }));
  const approach = ({ at }: Shift): void => {
    for (const one of waiting) {
      one.distance = Math.min(one.distance, Math.hypot(one.mark.xMm - at.x, one.mark.yMm - at.y));
    }
  };
  known.forEach(approach);
  while (waiting.length > 0) {
    waiting.sort((a, b) => b.distance - a.distance);
    const { mark } = waiting.pop()!;
    const at = { x: mark.xMm, y: mark.yMm };
    const by = findMark(picture, pose, mark, shiftAt(known, at, reachMm));
    if (!by) continue;
    known.push({ at, by });
    approach(known.at(-1)!);
  }
  const marks = known.slice(corners.length);
  const sound = marks.filter((one) => {
    const others = known.filter((other) => other !== one);
    const said = shiftAt(others, one.at, reachMm);
    return Math.hypot(one.by.x - said.x, one.by.y - said.y) <= strayMm;
  });
  return {
    shifts: [...corners, ...sound],
    found: sound.length,
    seen: sound.map(({ at, by }) => mapPoint(pose.toPicture, { x: at.x + by.x, y: at.y + by.y })),
    reachMm,
  };
}

/** The corner markers' middles: how far they lie from the plane laid through all of them. */
function cornerShifts(pose: SheetPose): Shift[] {
  const shifts: Shift[] = [];
  for (let i = 0; i + 3 < pose.pairs.length; i += 4) {
    const four = pose.pairs.slice(i, i + 4);
    const middle = (pick: (pair: (typeof four)[number]) => Point): Point => ({
      x: four.reduce((sum, pair) => sum + pick(pair).x, 0) / 4,
      y: four.reduce((sum, pair) => sum + pick(pair).y, 0) / 4,
    });
    const at = middle(({ from }) => from);
    const off = middle(({ from, to }) => {
      const laid = mapPoint(pose.toPicture, from);
      return { x: to.x - laid.x, y: to.y - laid.y };
    });
    shifts.push({ at, by: onSheet(derivativeAt(pose.toPicture, at), off) });
  }
  return shifts;
}

/** From one mark to the next: the median of distances to the nearest other. */
function spacing(marks: readonly RegistrationMark[]): number {
  const nearest = marks.map((a) =>
    marks.reduce(
      (least, b) => (a === b ? least : Math.min(least, Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm))),
      1000,
    ),
  );
  return nearest.sort((a, b) => a - b)[nearest.length >> 1] ?? 40;
}

/** A dark square of the right size, standing free; null when there is none. */
function findMark(
  picture: SampledPicture,
  pose: SheetPose,
  { xMm, yMm, sideMm }: RegistrationMark,
  expected: Point,
): Point | null {
  const scale = pixelsPerMm(derivativeAt(pose.toPicture, { x: xMm, y: yMm }));
  const reach = sideMm / 2 + searchMm;
  const n = Math.min(mostPlaces, Math.max(24, Math.ceil(2 * reach * scale)));
  const step = (2 * reach) / n;
  const light = new Float32Array(n * n);
  for (let j = 0; j < n; j += 1) {
    for (let i = 0; i < n; i += 1) {
      const x = xMm + expected.x - reach + (i + 0.5) * step;
      const y = yMm + expected.y - reach + (j + 0.5) * step;
      const { x: px, y: py } = mapPoint(pose.toPicture, { x, y });
      light[j * n + i] = lightAt(picture, px, py);
    }
  }
  const own = Float64Array.from(light);
  const white = smallest(own, n * n, Math.floor(0.9 * n * n));
  const black = smallest(own, n * n, Math.floor(0.02 * n * n));
  if (!(white - black > 0.35 * white)) return null;
  const blob = freeBlob(light, n, (white + black) / 2, sideMm / step);
  if (!blob) return null;
  let { x, y } = blob;
  const half = (sideMm / 2 + 0.45) / step;
  for (let round = 0; round < 3; round += 1) {
    let sum = 0;
    let sumX = 0;
    let sumY = 0;
    for (let j = Math.max(0, Math.ceil(y - half)); j <= Math.min(n - 1, y + half); j += 1) {
      for (let i = Math.max(0, Math.ceil(x - half)); i <= Math.min(n - 1, x + half); i += 1) {
        const ink = Math.min(1, (white - light[j * n + i]!) / (white - black));
        if (ink < 0.15) continue;
        sum += ink;
        sumX += ink * i;
        sumY += ink * j;
      }
    }
    x = sumX / sum;
    y = sumY / sum;
  }
  return { x: expected.x - reach + (x + 0.5) * step, y: expected.y - reach + (y + 0.5) * step };
}

/** The dark patch of samples nearest to the middle that is about `side` wide and high and touches no border. */
function freeBlob(light: Float32Array, n: number, threshold: number, side: number): Point | null {
  const done = new Uint8Array(n * n);
  let best: (Point & { distance: number }) | null = null;
  const stack: number[] = [];
  for (let start = 0; start < n * n; start += 1) {
    if (done[start] || light[start]! > threshold) continue;
    let [area, sumX, sumY, left, right, top, bottom] = [0, 0, 0, n, 0, n, 0];
    done[start] = 1;
    stack.push(start);
    while (stack.length > 0) {
      const at = stack.pop()!;
      const x = at % n;
      const y = (at - x) / n;
      area += 1;
      sumX += x;
      sumY += y;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
      for (const next of [x > 0 ? at - 1 : -1, x < n - 1 ? at + 1 : -1, at - n, at + n]) {
        if (next < 0 || next >= n * n || done[next] || light[next]! > threshold) continue;
        done[next] = 1;
        stack.push(next);
      }
    }
    if (left === 0 || top === 0 || right === n - 1 || bottom === n - 1) continue;
    const width = right - left + 1;
    const height = bottom - top + 1;
    const fits = (length: number): boolean => length > 0.65 * side && length < 1.5 * side;
    if (!fits(width) || !fits(height) || area < 0.6 * width * height) continue;
    const x = sumX / area;
    const y = sumY / area;
    const distance = Math.hypot(x - n / 2, y - n / 2);
    if (!best || distance < best.distance) best = { x, y, distance };
  }
  return best;
}
