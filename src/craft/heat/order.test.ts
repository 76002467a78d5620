import { describe, expect, it } from 'vitest';
import { materials } from './materials.js';
import { runHeat } from './run-heat.js';
import type { HeatOptions, HeatRun } from './types.js';

/** A tile between two heated plates, one swinging: joints, layers and both kinds of change, but nothing sudden. */
const swinging: HeatRun = {
  geometry: { kind: 'plane' },
  layers: [
    { id: 'paper', material: materials.paper, thicknessMm: 0.3, startC: 50, contactM2KPerW: 3e-4, cells: 4 },
    {
      id: 'tile',
      material: materials['glazed-ceramic'],
      thicknessMm: 6,
      startC: 50,
      contactM2KPerW: 8e-4,
      cells: 10,
    },
  ],
  roomC: 20,
  phases: [
    {
      name: 'swing',
      seconds: 60,
      top: { kind: 'fixed', celsius: (seconds) => 50 + 150 * Math.sin((Math.PI * seconds) / 120) ** 2 },
      bottom: { kind: 'air', airC: 50, hWPerM2K: 12, emissivity: 0.9 },
    },
  ],
  probes: [
    { name: 'face', layer: 'tile', depth: 0 },
    { name: 'middle', layer: 'tile', depth: 0.5 },
    { name: 'back', layer: 'tile', depth: 1 },
  ],
};

const ends = (run: HeatRun, options: HeatOptions): number[] => {
  const result = runHeat(run, options);
  return run.probes.map((probe) => result.probes[probe.name]!.at(-1)!);
};

/** Order seen in three solutions, each twice as fine as the one before (Richardson; Roache 1994). */
const orderOf = (coarse: number, middle: number, fine: number): number =>
  Math.log2(Math.abs((coarse - middle) / (middle - fine)));

describe('order of accuracy', () => {
  it('is second in time', () => {
    const [a, b, c] = [16, 32, 64].map((fixedSteps) => ends(swinging, { fixedSteps, meshFactor: 2 }));
    swinging.probes.forEach((_, i) => {
      const order = orderOf(a![i]!, b![i]!, c![i]!);
      expect(order).toBeGreaterThan(1.8);
      expect(order).toBeLessThan(2.3);
    });
  });

  it.each(['plane', 'cylinder', 'sphere'] as const)('is second in space: %s', (kind) => {
    const geometry =
      kind === 'plane' ? ({ kind } as const) : ({ kind, radiusMm: 20, ofLayer: 'tile' } as const);
    const run = { ...swinging, geometry };
    const [a, b, c] = [2, 4, 8].map((meshFactor) => ends(run, { fixedSteps: 400, meshFactor }));
    swinging.probes.forEach((_, i) => {
      const order = orderOf(a![i]!, b![i]!, c![i]!);
      expect(order).toBeGreaterThan(1.8);
      expect(order).toBeLessThan(2.3);
    });
  });

  it('the usual cells and steps are within 0.1 K of much finer ones after a sudden closing', () => {
    const layers = swinging.layers.map(({ cells: _, ...layer }) => ({ ...layer, startC: 20 }));
    const closing: HeatRun = {
      ...swinging,
      layers,
      phases: [5, 20, 90].map((seconds, i) => ({
        name: `press ${i}`,
        seconds,
        top: { kind: 'fixed', celsius: 200 },
        bottom: { kind: 'air', airC: 20, hWPerM2K: 12, emissivity: 0.9 },
      })),
    };
    const usual = runHeat(closing);
    const fine = runHeat(closing, { meshFactor: 8, stepToleranceK: 1e-5 });
    closing.phases.forEach((_, p) => {
      for (const { name } of closing.probes) {
        const [u, f] = [usual, fine].map((result) => result.probes[name]![result.phases[p]!.last]!);
        expect(Math.abs(u! - f!)).toBeLessThan(0.1);
      }
    });
  });
});
