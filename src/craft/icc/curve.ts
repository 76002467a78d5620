import { clipUnit } from './clip.js';
import type { IccCurve } from './types.js';

export type CurveFunction = (x: number) => number;

const finite = (y: number): number => (Number.isFinite(y) ? y : 0);

/**
 * A curve as a function. Sampled curves clip to 0..1; parametric ones run on outside it, as Little CMS lets them
 * (ICC.1:2022 leaves it open), so that a colour out of range is clipped only where a table or the device does it.
 */
export function curveFunction(curve: IccCurve): CurveFunction {
  if (curve.kind === 'sampled') return sampled(curve.values);
  const [g = 1, a = 1, b = 0, c = 0, d = 0, e = 0, f = 0] = curve.parameters;
  const power = (base: number): number => (base > 0 ? base ** g : 0);
  // ICC.1:2022 Table 68, function types 0..4.
  switch (curve.functionType) {
    case 0:
      if (g === 1) return (x) => x;
      return (x) => finite(power(x));
    case 1:
      return (x) => finite(x >= -b / a ? power(a * x + b) : 0);
    case 2:
      return (x) => finite(x >= -b / a ? power(a * x + b) + c : c);
    case 3:
      return (x) => finite(x >= d ? power(a * x + b) : c * x);
    case 4:
      return (x) => finite(x >= d ? power(a * x + b) + e : c * x + f);
  }
}

/** The way back, for tone curves. Analytic for parametric curves; exact on the straight pieces of sampled ones. */
export function inverseCurveFunction(curve: IccCurve): CurveFunction {
  if (curve.kind === 'sampled') return invertSampled(curve.values);
  const [g = 1, a = 1, b = 0, c = 0, d = 0, e = 0, f = 0] = curve.parameters;
  const root = (y: number): number => (y > 0 ? y ** (1 / g) : 0);
  switch (curve.functionType) {
    case 0:
      if (g === 1) return (y) => y;
      return (y) => finite(root(y));
    case 1:
      return (y) => finite(y >= 0 ? (root(y) - b) / a : 0);
    case 2:
      return (y) => finite(y >= c ? (root(y - c) - b) / a : -b / a);
    case 3: {
      const knee = a * d + b > 0 ? (a * d + b) ** g : 0;
      return (y) => finite(y >= knee || c === 0 ? (root(y) - b) / a : y / c);
    }
    case 4: {
      const knee = (a * d + b > 0 ? (a * d + b) ** g : 0) + e;
      return (y) => finite(y >= knee || c === 0 ? (root(y - e) - b) / a : (y - f) / c);
    }
  }
}

function sampled(values: Float64Array): CurveFunction {
  const last = values.length - 1;
  return (x) => {
    const at = clipUnit(x) * last;
    const i = Math.min(Math.floor(at), last - 1);
    const low = values[i]!;
    return low + (values[i + 1]! - low) * (at - i);
  };
}

/** Where a curve is level, the far end of the level stretch is taken; a curve that turns back is levelled first. */
function invertSampled(values: Float64Array): CurveFunction {
  const last = values.length - 1;
  const rising = values[last]! >= values[0]!;
  const level = new Float64Array(values.length);
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i <= last; i += 1) {
    highest = Math.max(highest, rising ? values[i]! : values[last - i]!);
    level[i] = highest;
  }
  return (y) => {
    const target = clipUnit(y);
    if (target >= level[last]!) {
      // The near end of a level stretch at the top: full signal is reached there.
      return direct(level.indexOf(level[last]!) / last);
    }
    let low = 0;
    let high = last;
    // Invariant: level[high] > target; the last node not above the target is found.
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (level[middle]! <= target) low = middle;
      else high = middle;
    }
    const span = level[high]! - level[low]!;
    const part = span > 0 ? clipUnit((target - level[low]!) / span) : 0;
    return direct((low + part) / last);
  };

  function direct(x: number): number {
    return rising ? x : 1 - x;
  }
}
