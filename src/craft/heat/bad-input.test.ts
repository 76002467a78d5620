import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isProblem, type ProblemCode } from '#craft/problem';
import { materials } from './materials.js';
import { flatPressRun } from './press-stack.js';
import { runHeat } from './run-heat.js';
import type { HeatOptions, HeatRun } from './types.js';

const good = flatPressRun(
  { blank: { material: materials.slate, thicknessMm: 8 }, setC: 200, pressure: 'medium' },
  { dwellSeconds: 10 },
);
const phase = good.phases[0]!;
const layer = good.layers[0]!;

function codeOf(run: HeatRun, options: HeatOptions = {}): ProblemCode | 'fine' {
  try {
    runHeat(run, options);
    return 'fine';
  } catch (thrown) {
    if (!isProblem(thrown)) throw thrown;
    expect(thrown.message).toMatch(/\.$/);
    expect(thrown.remedy.length).toBeGreaterThan(5);
    return thrown.code;
  }
}

describe('what cannot be is refused', () => {
  const broken: Record<string, HeatRun> = {
    'no layers': { ...good, layers: [] },
    'no phases': { ...good, phases: [] },
    'negative time': { ...good, phases: [{ ...phase, seconds: -5 }] },
    'time that is no number': { ...good, phases: [{ ...phase, seconds: Number.NaN }] },
    'two layers of one name': { ...good, layers: [layer, ...good.layers] },
    'no thickness': { ...good, layers: [{ ...layer, thicknessMm: 0 }] },
    'no conductivity': {
      ...good,
      layers: [{ ...layer, material: { ...layer.material, conductivityWPerMK: 0 } }],
    },
    'negative contact': { ...good, layers: [{ ...layer, contactM2KPerW: -1 }] },
    'below absolute zero': { ...good, layers: [{ ...layer, startC: -300 }] },
    'unknown layer in a phase': { ...good, phases: [{ ...phase, layers: ['nothing'] }] },
    'unknown layer of a probe': { ...good, probes: [{ name: 'p', layer: 'nothing', depth: 0 }] },
    'platen that is not described': { ...good, phases: [{ ...phase, bottom: { kind: 'platen' } }] },
    'mug thicker than its radius': {
      ...good,
      geometry: { kind: 'cylinder', radiusMm: 4, ofLayer: 'blank' },
    },
    'course with times out of order': {
      ...good,
      phases: [
        {
          ...phase,
          top: {
            kind: 'fixed',
            celsius: [
              { atSeconds: 5, value: 100 },
              { atSeconds: 5, value: 120 },
            ],
          },
        },
      ],
    },
    'two lumps with nothing between': {
      ...good,
      layers: [{ ...layer, lumped: true, contactM2KPerW: 0 }],
      probes: [],
    },
    'fraction of a cell': { ...good, layers: [{ ...layer, cells: 2.5 }] },
  };
  it.each(Object.entries(broken))('%s', (_, run) => {
    expect(codeOf(run)).toBe('press.invalid');
  });

  it('temperatures above the bound, of platens, faces and ovens, until the bound is lifted on purpose', () => {
    const hot: HeatRun = { ...good, topPlaten: { ...good.topPlaten!, setC: 240 } };
    expect(codeOf(hot)).toBe('press.unsafe');
    expect(codeOf({ ...good, phases: [{ ...phase, top: { kind: 'fixed', celsius: 260 } }] })).toBe(
      'press.unsafe',
    );
    expect(codeOf({ ...good, phases: [{ ...phase, top: { kind: 'air', airC: 300, hWPerM2K: 10 } }] })).toBe(
      'press.unsafe',
    );
    expect(codeOf(hot, { boundC: 250 })).toBe('fine');
  });

  it('whatever is thrown at it: a result of numbers or a Problem', () => {
    const number = fc.oneof(
      fc.double({ min: -10, max: 300 }),
      fc.constantFrom(0, Number.NaN, 1e12, -1e12, 1e-12),
    );
    fc.assert(
      fc.property(number, number, number, number, number, (thickness, k, seconds, start, h) => {
        const run: HeatRun = {
          ...good,
          layers: [
            {
              ...layer,
              thicknessMm: thickness,
              startC: start,
              material: { ...layer.material, conductivityWPerMK: k },
            },
          ],
          phases: [{ ...phase, seconds, bottom: { kind: 'air', airC: 20, hWPerM2K: h, emissivity: 0.9 } }],
          probes: [{ name: 'back', layer: layer.id, depth: 1 }],
        };
        try {
          const result = runHeat(run);
          for (const celsius of result.probes.back!) expect(Number.isFinite(celsius)).toBe(true);
          expect(result.energy.closure).toBeLessThan(1e-6);
        } catch (thrown) {
          if (!isProblem(thrown)) throw thrown;
        }
      }),
      { seed: 7, numRuns: 150 },
    );
  });
});
