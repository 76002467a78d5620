import { pointSize } from './kernel.js';

/** How far from R = G = B a lift still counts, in device units. */
const reach = 0.12;
/** Lightness must rise by at least this from one step looked at to the next, so that it can be inverted. */
const leastRise = 0.005;

/**
 * Nearest non-decreasing sequence in least squares: pool adjacent violators (Ayer et al., Ann. Math. Stat. 26, 1955).
 */
export function nondecreasing(values: ArrayLike<number>): Float64Array {
  const means: number[] = [];
  const sizes: number[] = [];
  for (let i = 0; i < values.length; i += 1) {
    means.push(values[i]!);
    sizes.push(1);
    while (means.length > 1 && means.at(-2)! > means.at(-1)!) {
      const [m, s] = [means.pop()!, sizes.pop()!];
      const last = means.length - 1;
      means[last] = (means[last]! * sizes[last]! + m * s) / (sizes[last]! + s);
      sizes[last] = sizes[last]! + s;
    }
  }
  const out = new Float64Array(values.length);
  let at = 0;
  means.forEach((mean, block) => {
    out.fill(mean, at, at + sizes[block]!);
    at += sizes[block]!;
  });
  return out;
}

/**
 * What must be added to the lightness along the neutral axis (evenly spaced device greys, black first) so that it
 * only rises. Empty when it does.
 */
export function neutralLift(lightness: Float64Array): number[] {
  const steps = lightness.length;
  let sound = true;
  for (let i = 1; i < steps; i += 1) if (lightness[i]! - lightness[i - 1]! < leastRise) sound = false;
  if (sound) return [];
  // Monotone after taking the least rise off, then with it put back: strictly rising.
  const level = nondecreasing(lightness.map((v, i) => v - leastRise * i));
  return Array.from(level, (v, i) => v + leastRise * i - lightness[i]!);
}

/** Adds the lift to Lab (count × 3), fading with distance from the axis. */
export function liftNeutral(lift: readonly number[], points: Float64Array, lab: Float64Array): void {
  const count = lab.length / 3;
  for (let i = 0; i < count; i += 1) {
    const r = points[pointSize * i]!;
    const g = points[pointSize * i + 1]!;
    const b = points[pointSize * i + 2]!;
    const grey = (r + g + b) / 3;
    const away2 = (r - grey) ** 2 + (g - grey) ** 2 + (b - grey) ** 2;
    const at = grey * (lift.length - 1);
    const step = Math.min(lift.length - 2, Math.floor(at));
    const t = at - step;
    const value = lift[step]! * (1 - t) + lift[step + 1]! * t;
    lab[3 * i] = lab[3 * i]! + value * Math.exp(-away2 / (2 * reach * reach));
  }
}
