import { describe, expect, it } from 'vitest';
import { minimise } from './minimise.js';

describe('minimiser', () => {
  it('finds the minimum of Rosenbrock’s valley from its usual start (Moré, Garbow & Hillstrom 1981, no. 1)', () => {
    const found = minimise(
      (x, g) => {
        const a = x[1]! - x[0]! ** 2;
        g[0] = -400 * x[0]! * a - 2 * (1 - x[0]!);
        g[1] = 200 * a;
        return 100 * a * a + (1 - x[0]!) ** 2;
      },
      [-1.2, 1],
      { maxIterations: 200, gradientTolerance: 1e-8, valueTolerance: 0 },
    );
    expect(found.x[0]).toBeCloseTo(1, 6);
    expect(found.x[1]).toBeCloseTo(1, 6);
  });

  it('finds the minimum within bounds of Hock & Schittkowski 1981, no. 5', () => {
    const found = minimise(
      (x, g) => {
        const [a, b] = [x[0]!, x[1]!];
        g[0] = Math.cos(a + b) + 2 * (a - b) - 1.5;
        g[1] = Math.cos(a + b) - 2 * (a - b) + 2.5;
        return Math.sin(a + b) + (a - b) ** 2 - 1.5 * a + 2.5 * b + 1;
      },
      [0, 0],
      { lower: [-1.5, -3], upper: [4, 3], gradientTolerance: 1e-9, valueTolerance: 0 },
    );
    // Their solution: (1/2 − π/3, −1/2 − π/3), value −√3/2 − π/3.
    expect(found.x[0]).toBeCloseTo(0.5 - Math.PI / 3, 6);
    expect(found.value).toBeCloseTo(-Math.sqrt(3) / 2 - Math.PI / 3, 9);
  });

  it('holds a variable whose bound is in the way: Hock & Schittkowski no. 1, x₂ ≥ −1.5, and no. 2, x₂ ≥ 1.5', () => {
    const valley = (x: Float64Array, g: Float64Array): number => {
      const a = x[1]! - x[0]! ** 2;
      g[0] = -400 * x[0]! * a - 2 * (1 - x[0]!);
      g[1] = 200 * a;
      return 100 * a * a + (1 - x[0]!) ** 2;
    };
    const options = { maxIterations: 300, gradientTolerance: 1e-8, valueTolerance: 0 };
    const free = minimise(valley, [-2, 1], { ...options, lower: [-10, -1.5] });
    expect(free.value).toBeLessThan(1e-12);
    const held = minimise(valley, [2, 2], { ...options, lower: [-10, 1.5] });
    expect(held.x[1]).toBe(1.5);
    // Their value: 0.0504261879.
    expect(held.value).toBeCloseTo(0.0504261879, 8);
  });
});
