export interface MinimiseOptions {
  readonly lower?: readonly number[];
  readonly upper?: readonly number[];
  /** Default 100. */
  readonly maxIterations?: number;
  /** Stop when the largest projected gradient component is below. Default 1e-5. */
  readonly gradientTolerance?: number;
  /** Stop when the value falls by less than this share. Default 1e-9. */
  readonly valueTolerance?: number;
}

export interface MinimiseResult {
  readonly x: Float64Array;
  readonly value: number;
  readonly iterations: number;
  readonly converged: boolean;
}

/** Writes the gradient at x into `gradient` and returns the value; not finite where there is none. */
export type Objective = (x: Float64Array, gradient: Float64Array) => number;

const memory = 8;

/**
 * Limited-memory BFGS (Nocedal & Wright, Numerical Optimization, 2nd ed., algorithm 7.4) on the variables that
 * are not held at a bound, with a projected backtracking line search (Armijo, Bertsekas 1982).
 */
export function minimise(
  f: Objective,
  start: ArrayLike<number>,
  options: MinimiseOptions = {},
): MinimiseResult {
  const n = start.length;
  const maxIterations = options.maxIterations ?? 100;
  const gradientTolerance = options.gradientTolerance ?? 1e-5;
  const valueTolerance = options.valueTolerance ?? 1e-9;
  const low = (i: number): number => options.lower?.[i] ?? Number.NEGATIVE_INFINITY;
  const high = (i: number): number => options.upper?.[i] ?? Number.POSITIVE_INFINITY;
  const clamp = (v: number, i: number): number => Math.min(high(i), Math.max(low(i), v));

  let x = Float64Array.from(start, clamp);
  let gradient = new Float64Array(n);
  let value = f(x, gradient);
  const steps: { s: Float64Array; y: Float64Array; rho: number }[] = [];
  let calm = 0;

  for (let iteration = 0; iteration < maxIterations; iteration += 1) {
    const free = new Uint8Array(n);
    let largest = 0;
    for (let i = 0; i < n; i += 1) {
      const g = gradient[i]!;
      const held = (x[i]! <= low(i) && g > 0) || (x[i]! >= high(i) && g < 0);
      free[i] = held ? 0 : 1;
      if (!held) largest = Math.max(largest, Math.abs(g));
    }
    if (largest < gradientTolerance) return { x, value, iterations: iteration, converged: true };

    let direction = lbfgsDirection(gradient, free, steps);
    let slope = dotFree(direction, gradient, free);
    if (!(slope < 0)) {
      steps.length = 0;
      direction = gradient.map((g, i) => (free[i] ? -g : 0));
      slope = dotFree(direction, gradient, free);
    }
    let step = steps.length === 0 ? Math.min(1, 1 / Math.sqrt(-slope)) : 1;
    let nextX = x;
    let nextGradient = gradient;
    let nextValue = Number.POSITIVE_INFINITY;
    for (let tries = 0; tries < 30; tries += 1) {
      const taken = step;
      nextX = Float64Array.from(x, (v, i) => clamp(v + taken * direction[i]!, i));
      nextGradient = new Float64Array(n);
      nextValue = f(nextX, nextGradient);
      let expected = 0;
      for (let i = 0; i < n; i += 1) expected += gradient[i]! * (nextX[i]! - x[i]!);
      if (Number.isFinite(nextValue) && nextValue <= value + 1e-4 * expected) break;
      step *= Number.isFinite(nextValue) ? 0.5 : 0.2;
      if (tries === 29) nextValue = Number.POSITIVE_INFINITY;
    }
    if (!Number.isFinite(nextValue)) {
      if (steps.length === 0) return { x, value, iterations: iteration, converged: false };
      steps.length = 0;
      continue;
    }
    const s = nextX.map((v, i) => v - x[i]!);
    const y = nextGradient.map((v, i) => v - gradient[i]!);
    const sy = s.reduce((sum, v, i) => sum + v * y[i]!, 0);
    if (sy > 1e-12) {
      steps.push({ s, y, rho: 1 / sy });
      if (steps.length > memory) steps.shift();
    }
    const fall = value - nextValue;
    x = nextX;
    gradient = nextGradient;
    value = nextValue;
    calm = fall <= valueTolerance * Math.max(1, Math.abs(value)) ? calm + 1 : 0;
    if (calm >= 3) return { x, value, iterations: iteration + 1, converged: true };
  }
  return { x, value, iterations: maxIterations, converged: false };
}

function lbfgsDirection(
  gradient: Float64Array,
  free: Uint8Array,
  steps: readonly { s: Float64Array; y: Float64Array; rho: number }[],
): Float64Array {
  const q = gradient.map((g, i) => (free[i] ? g : 0));
  const alphas: number[] = [];
  for (let k = steps.length - 1; k >= 0; k -= 1) {
    const { s, y, rho } = steps[k]!;
    const alpha = rho * dotFree(s, q, free);
    alphas[k] = alpha;
    for (let i = 0; i < q.length; i += 1) if (free[i]) q[i] = q[i]! - alpha * y[i]!;
  }
  const last = steps.at(-1);
  if (last !== undefined) {
    const yy = dotFree(last.y, last.y, free);
    const scale = yy > 0 ? dotFree(last.s, last.y, free) / yy : 1;
    if (scale > 0) for (let i = 0; i < q.length; i += 1) q[i] = q[i]! * scale;
  }
  for (let k = 0; k < steps.length; k += 1) {
    const { s, y, rho } = steps[k]!;
    const beta = rho * dotFree(y, q, free);
    for (let i = 0; i < q.length; i += 1) if (free[i]) q[i] = q[i]! + (alphas[k]! - beta) * s[i]!;
  }
  return q.map((v) => -v);
}

function dotFree(a: Float64Array, b: Float64Array, free: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) if (free[i]) sum += a[i]! * b[i]!;
  return sum;
}
