import type { Triple } from '#craft/colour';
import { type ForwardGrid, forwardLab } from './forward-grid.js';

export interface GridInverse {
  /** Device RGB 0..1. */
  readonly rgb: [number, number, number];
  /** Lab that the grid gives for it. */
  readonly lab: [number, number, number];
  /** Distance in CIELAB between the two. */
  readonly miss: number;
}

/** @param enough stop looking from other starts once the miss is below. Default 0.01 */
export type GridInverter = (lab: Triple, near?: Triple, enough?: number) => GridInverse;

const rounds = 24;
/** CIELAB distance below which a colour counts as hit; far below one step of an 8-bit code. */
const hit = 0.01;

/**
 * Device values whose colour is nearest in CIELAB: Levenberg–Marquardt within the cube (values at a face that want to
 * leave it are held), from the nearest grid nodes and from `near` if given.
 */
export function makeGridInverter(grid: ForwardGrid): GridInverter {
  const nearest = nodeIndex(grid);
  const { size } = grid;
  const search = localSearch(grid);
  return (lab, near, enough = hit) => {
    let best: GridInverse | null = near === undefined ? null : search(lab, near);
    if (best !== null && best.miss < enough) return best;
    for (const node of nearest(lab)) {
      const start: Triple = [
        Math.floor(node / (size * size)) / (size - 1),
        (Math.floor(node / size) % size) / (size - 1),
        (node % size) / (size - 1),
      ];
      const found = search(lab, start);
      if (best === null || found.miss < best.miss - 1e-4) best = found;
      if (best.miss < enough) break;
    }
    return best!;
  };
}

function localSearch(grid: ForwardGrid): (lab: Triple, start: Triple) => GridInverse {
  const value = new Float64Array(3);
  const tried = new Float64Array(3);
  const jacobian = new Float64Array(9);
  return (lab, start) => {
    let x: [number, number, number] = [start[0], start[1], start[2]];
    forwardLab(grid, x, value, jacobian);
    let miss2 = square(value, lab);
    let damping = 1e-3;
    for (let round = 0; round < rounds && miss2 > (hit * hit) / 100; round += 1) {
      const step = boxedStep(x, value, jacobian, lab, damping);
      const next: [number, number, number] = [
        clamp(x[0] + step[0]),
        clamp(x[1] + step[1]),
        clamp(x[2] + step[2]),
      ];
      const moved = Math.abs(next[0] - x[0]) + Math.abs(next[1] - x[1]) + Math.abs(next[2] - x[2]);
      if (moved < 1e-7) break;
      forwardLab(grid, next, tried);
      const miss2Next = square(tried, lab);
      if (miss2Next < miss2) {
        const gain = miss2 - miss2Next;
        x = next;
        miss2 = miss2Next;
        forwardLab(grid, x, value, jacobian);
        damping = Math.max(1e-7, damping / 8);
        if (gain < 1e-7 * miss2) break;
      } else {
        damping *= 12;
        if (damping > 1e6) break;
      }
    }
    forwardLab(grid, x, value);
    return { rgb: x, lab: [value[0]!, value[1]!, value[2]!], miss: Math.sqrt(miss2) };
  };
}

const clamp = (v: number): number => Math.min(1, Math.max(0, v));

const square = (value: Float64Array, lab: Triple): number =>
  (value[0]! - lab[0]) ** 2 + (value[1]! - lab[1]) ** 2 + (value[2]! - lab[2]) ** 2;

/** (JᵀJ + damping·diag) step = Jᵀ(lab − value) over the channels free to move. */
function boxedStep(
  x: Triple,
  value: Float64Array,
  j: Float64Array,
  lab: Triple,
  damping: number,
): [number, number, number] {
  const miss = [lab[0] - value[0]!, lab[1] - value[1]!, lab[2] - value[2]!];
  const m = new Float64Array(9);
  const right: [number, number, number] = [0, 0, 0];
  for (let p = 0; p < 3; p += 1) {
    right[p] = j[p]! * miss[0]! + j[3 + p]! * miss[1]! + j[6 + p]! * miss[2]!;
    for (let q = 0; q < 3; q += 1) {
      m[3 * p + q] = j[p]! * j[q]! + j[3 + p]! * j[3 + q]! + j[6 + p]! * j[6 + q]!;
    }
  }
  for (let p = 0; p < 3; p += 1) {
    const held = (x[p]! <= 0 && right[p]! < 0) || (x[p]! >= 1 && right[p]! > 0);
    m[4 * p] = m[4 * p]! * (1 + damping) + 1e-9;
    if (!held) continue;
    right[p] = 0;
    for (let q = 0; q < 3; q += 1) {
      m[3 * p + q] = 0;
      m[3 * q + p] = 0;
    }
    m[4 * p] = 1;
  }
  return solve3(m, right);
}

/** Cramer's rule; the matrix is symmetric and positive. */
function solve3(m: Float64Array, r: Triple): [number, number, number] {
  const [a, b, c, d, e, f] = [m[0]!, m[1]!, m[2]!, m[4]!, m[5]!, m[8]!];
  const c0 = d * f - e * e;
  const c1 = c * e - b * f;
  const c2 = b * e - c * d;
  const k = 1 / (a * c0 + b * c1 + c * c2);
  const d1 = a * f - c * c;
  const d2 = b * c - a * e;
  const f2 = a * d - b * b;
  return [
    k * (c0 * r[0] + c1 * r[1] + c2 * r[2]),
    k * (c1 * r[0] + d1 * r[1] + d2 * r[2]),
    k * (c2 * r[0] + d2 * r[1] + f2 * r[2]),
  ];
}

/** The few grid nodes nearest in Lab, through bins of ten units. */
function nodeIndex(grid: ForwardGrid): (lab: Triple) => number[] {
  const bin = 10;
  const bins = new Map<number, number[]>();
  const key = (l: number, a: number, b: number): number => (l + 40) * 1e6 + (a + 400) * 1e3 + (b + 400);
  const nodes = grid.size ** 3;
  const cellOf = (v: number): number => Math.floor(v / bin);
  for (let i = 0; i < nodes; i += 1) {
    const k = key(cellOf(grid.lab[3 * i]!), cellOf(grid.lab[3 * i + 1]!), cellOf(grid.lab[3 * i + 2]!));
    const list = bins.get(k);
    if (list === undefined) bins.set(k, [i]);
    else list.push(i);
  }
  const keep = 3;
  return (lab) => {
    const found: { node: number; d2: number }[] = [];
    const consider = (node: number): void => {
      const d2 =
        (grid.lab[3 * node]! - lab[0]) ** 2 +
        (grid.lab[3 * node + 1]! - lab[1]) ** 2 +
        (grid.lab[3 * node + 2]! - lab[2]) ** 2;
      if (found.length === keep && d2 >= found[keep - 1]!.d2) return;
      let at = found.length;
      while (at > 0 && found[at - 1]!.d2 > d2) at -= 1;
      found.splice(at, 0, { node, d2 });
      if (found.length > keep) found.pop();
    };
    const [cl, ca, cb] = [cellOf(lab[0]), cellOf(lab[1]), cellOf(lab[2])];
    for (let l = cl - 1; l <= cl + 1; l += 1) {
      for (let a = ca - 1; a <= ca + 1; a += 1) {
        for (let b = cb - 1; b <= cb + 1; b += 1) bins.get(key(l, a, b))?.forEach(consider);
      }
    }
    // Far from everything reachable: look at every fourth node instead.
    if (found.length < keep) for (let i = 0; i < nodes; i += 4) consider(i);
    return found.map((f) => f.node);
  };
}
