import { describe, expect, it } from 'vitest';
import { materials } from './materials.js';
import { flatPressRun, mugPressRun, ovenRun, usualPlaten } from './press-stack.js';
import { runHeat } from './run-heat.js';
import type { HeatRun, Platen } from './types.js';

const tile = { material: materials['glazed-ceramic'], thicknessMm: 6 };
const times = { prePressSeconds: 5, pauseSeconds: 8, dwellSeconds: 240, openSeconds: 15, coolSeconds: 300 };

const runs: Record<string, HeatRun> = {
  'flat press with all its steps': flatPressRun({ blank: tile, setC: 200, pressure: 'medium' }, times),
  'press heated from both sides': flatPressRun(
    { blank: tile, setC: 200, pressure: 'firm', bothSides: true },
    times,
  ),
  'mug press that runs out of power': mugPressRun(
    { blank: { material: materials['glazed-ceramic'], thicknessMm: 4.5 }, setC: 200, pressure: 'medium' },
    { dwellSeconds: 180, coolSeconds: 600 },
    41,
  ),
  'oven with radiation': ovenRun(
    { blank: { material: materials['glazed-ceramic'], thicknessMm: 4.5 }, ovenC: 195, pressure: 'light' },
    { bakeSeconds: 900, coolSeconds: 600 },
    41,
  ),
};

describe('energy account', () => {
  it.each(Object.entries(runs))('closes to a millionth of what crosses: %s', (_, run) => {
    const { energy } = runHeat(run);
    expect(energy.throughputJPerM2).toBeGreaterThan(1e5);
    expect(energy.closure).toBeLessThan(1e-6);
  });

  it('stores in the piece what went in: enthalpy of its last profile, counted apart from the account', () => {
    const run = flatPressRun(
      { blank: tile, setC: 200, pressure: 'medium', pad: null, cover: null },
      { dwellSeconds: 90 },
    );
    const insulated: HeatRun = {
      ...run,
      phases: run.phases.map((phase) => ({ ...phase, bottom: { kind: 'insulated' } })),
    };
    const result = runHeat(insulated, { profilesAtSeconds: [90] });
    let gained = 0;
    for (const layer of result.profiles[0]!.layers) {
      const { material, startC } = insulated.layers.find((candidate) => candidate.id === layer.id)!;
      const { depthMm, celsius } = layer;
      for (let i = 1; i < depthMm.length; i += 1)
        gained +=
          ((depthMm[i]! - depthMm[i - 1]!) / 1000) *
          ((celsius[i]! + celsius[i - 1]!) / 2 - startC) *
          material.densityKgPerM3 *
          material.heatCapacityJPerKgK;
    }
    // The profile is sampled at cells: the trapezoidal rule over it is right to about a thousandth.
    expect(gained / result.energy.topPlatenToStackJPerM2).toBeCloseTo(1, 2);
    expect(result.phases[0]!.intoStackJPerM2).toBeCloseTo(result.energy.topPlatenToStackJPerM2, 3);
  });

  it('books what layers carry in: a cold piece for a hot one', () => {
    const run = flatPressRun({ blank: tile, setC: 200, pressure: 'medium' }, { dwellSeconds: 120 });
    const again = {
      ...run,
      phases: [...run.phases, { ...run.phases[0]!, name: 'second', freshPiece: true }],
    };
    const result = runHeat(again);
    expect(result.energy.closure).toBeLessThan(1e-6);
    expect(result.energy.carriedInJPerM2).toBeLessThan(0);
    const start = result.phases[1]!.first;
    expect(result.probes.middle![start]).toBeCloseTo(20, 6);
    // The platen has sunk, so the second piece is behind the first.
    expect(result.probes.dye!.at(-1)!).not.toBeCloseTo(result.probes.dye![result.phases[0]!.last]!, 1);
  });
});

describe('platen', () => {
  const bare = (platen: Platen, seconds: number): HeatRun => ({
    geometry: { kind: 'plane' },
    layers: [{ id: 'away', material: materials.paper, thicknessMm: 0.1, startC: 20 }],
    topPlaten: platen,
    roomC: 20,
    phases: [
      { name: 'wait', seconds, layers: [], top: { kind: 'insulated' }, bottom: { kind: 'insulated' } },
    ],
    probes: [],
  });

  it('waits at its set temperature, and cools by exp(−t/τ) when its power is off', () => {
    const waiting = runHeat(bare({ ...usualPlaten, setC: 200, startC: 200 }, 600));
    for (const celsius of waiting.topPlatenC!) expect(celsius).toBeCloseTo(200, 6);
    const off = {
      ...usualPlaten,
      setC: 200,
      startC: 200,
      maxWPerM2: 0,
      openFace: { hWPerM2K: 8, emissivity: 0 },
    };
    const cooling = runHeat(bare(off, 1200), { stepToleranceK: 1e-4 });
    const tau = off.heatCapacityJPerM2K / (off.lossWPerM2K + 8);
    expect(cooling.topPlatenC!.at(-1)).toBeCloseTo(20 + 180 * Math.exp(-1200 / tau), 2);
  });

  it('warms up at full power along the lumped solution (Incropera & DeWitt, eq. 5.25)', () => {
    const platen = { ...usualPlaten, setC: 200, startC: 20, openFace: { hWPerM2K: 8, emissivity: 0 } };
    const h = platen.lossWPerM2K + 8;
    const tau = platen.heatCapacityJPerM2K / h;
    const rise = platen.maxWPerM2 / h;
    const warming = runHeat(bare(platen, 400), { stepToleranceK: 1e-4 });
    expect(warming.topPlatenC!.at(-1)).toBeCloseTo(20 + rise * (1 - Math.exp(-400 / tau)), 2);
    // And then it stays where it was set.
    expect(runHeat(bare(platen, 3600)).topPlatenC!.at(-1)).toBeCloseTo(200, 1);
  });
});
