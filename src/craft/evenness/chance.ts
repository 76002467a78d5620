import { normalCdf } from '#craft/numerics';
import type { Field, PlaceValue } from './types.js';

/**
 * Shares of even maps in which a tilt, a rim or a spot may be seen by mistake. Tests hold each to 3 in 100 over
 * simulated even sheets whose noise has neighbours alike.
 */
export const falseAlarm = { tilt: 0.01, rim: 0.01, spot: 0.01 } as const;

/**
 * Student's t as a normal deviate of the same tail (Wallace, Ann. Math. Stat. 30, 1959; error below 0.1 in the tails
 * used here).
 * @param freedom may be infinite
 */
export function normalOfT(t: number, freedom: number): number {
  if (!Number.isFinite(freedom)) return t;
  const size = ((8 * freedom + 1) / (8 * freedom + 3)) * Math.sqrt(freedom * Math.log1p((t * t) / freedom));
  return Math.sign(t) * size;
}

/** P(F(2, freedom) > q / 2): of two coefficients together, q the sum of their squared t. */
export const tailOfTwo = (q: number, freedom: number): number =>
  Number.isFinite(freedom) ? (1 + q / freedom) ** (-freedom / 2) : Math.exp(-q / 2);

/** z with P(Z > z) = share, by bisection of Φ. */
export function deviateOf(share: number): number {
  let [low, high] = [0, 12];
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (normalCdf(-middle) > share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * By how much noise whose neighbours are alike (mottle, banding, a lamp) makes means less sure than as many independent
 * places would be: variance of block means times the cells in a block over the variance of single cells, the largest
 * over blocks of three to five places a side; at least 1.
 * @param left residuals in units of their own σ
 */
export function likeNeighbours(
  values: readonly PlaceValue[],
  left: ArrayLike<number>,
  believed: (i: number) => boolean,
  field: Field,
  pitchMm: number,
): number {
  const used = values.map((_, i) => i).filter(believed);
  const variance = used.reduce((sum, i) => sum + left[i]! ** 2, 0) / used.length;
  if (!(variance > 0)) return 1;
  let most = 1;
  for (const side of [3, 4, 5]) {
    const blocks = new Map<string, { sum: number; count: number }>();
    for (const i of used) {
      const { across, along } = values[i]!;
      const cell = (at: number, mm: number): number => Math.floor((at * mm) / (side * pitchMm));
      const key = `${cell(across, field.widthMm)} ${cell(along, field.depthMm)}`;
      const block = blocks.get(key) ?? { sum: 0, count: 0 };
      blocks.set(key, { sum: block.sum + left[i]!, count: block.count + 1 });
    }
    // A block's sum of n alike and independent residuals has the variance n σ².
    const whole = [...blocks.values()].filter(({ count }) => 2 * count >= side * side);
    if (whole.length < 8) continue;
    const squares = whole.reduce((sum, { sum: s }) => sum + s * s, 0);
    const count = whole.reduce((sum, { count: n }) => sum + n, 0);
    most = Math.max(most, squares / count / variance);
  }
  return most;
}
