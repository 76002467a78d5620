import { describe, expect, it } from 'vitest';
import { dryingEstimate } from './drying.js';
import { contactC, effusivity } from './half-space.js';
import { materials } from './materials.js';
import { pieceEnergy } from './piece-energy.js';
import { platenErrorCost } from './platen-error.js';
import { flatPressRun, ovenRun } from './press-stack.js';
import { peak, platenSag, reachesAt, shockK } from './run-facts.js';
import { runHeat } from './run-heat.js';
import { secondsAbove } from './touch.js';
import type { HeatRun } from './types.js';

const slate = { material: materials.slate, thicknessMm: 8 };
const press = flatPressRun(
  { blank: slate, setC: 200, pressure: 'medium' },
  { dwellSeconds: 300, openSeconds: 10, coolSeconds: 5400 },
);
const result = runHeat(press);

describe('facts of a run', () => {
  it('says when the dye’s place reaches a temperature, and how hot it gets', () => {
    const at = reachesAt(result, 'dye', 170, 'press')!;
    expect(at).toBeGreaterThan(10);
    expect(reachesAt(result, 'dye', 199.9, 'press')).toBeNull();
    const i = result.seconds.findIndex((seconds) => seconds >= at);
    expect(result.probes.dye![i]!).toBeGreaterThanOrEqual(170);
    expect(result.probes.dye![i - 1]!).toBeLessThan(170);
    expect(peak(result, 'dye')!.celsius).toBe(Math.max(...result.probes.dye!));
  });

  it('a stone cools along its lumped time, which bounds how long it burns (Biot below 0.1)', () => {
    // h about 7 + 5.5 W/m²K on both faces; τ = ρcL/(2h). Radiation falls as it cools: within a quarter is agreement.
    const opened = result.phases.find((phase) => phase.name === 'cool')!.startSeconds;
    const wait = secondsAbove(result, 'back', 48, opened)!;
    const tau = (2750 * 760 * 0.008) / (2 * 13);
    const hot = result.probes.back![result.phases[2]!.first]!;
    const lumped = tau * Math.log((hot - 20) / (48 - 20));
    expect(wait / lumped).toBeGreaterThan(0.75);
    expect(wait / lumped).toBeLessThan(1.25);
    expect(secondsAbove(result, 'back', 43, opened)!).toBeGreaterThan(wait);
    expect(secondsAbove(result, 'back', 400)).toBe(0);
    expect(secondsAbove(runHeat({ ...press, phases: press.phases.slice(0, 1) }), 'back', 48)).toBeNull();
  });

  it('a slab heated steadily from one side has its face qL/(3k) above its mean (Carslaw & Jaeger, 3.8)', () => {
    const glass = materials['soda-lime-glass'];
    const run: HeatRun = {
      geometry: { kind: 'plane' },
      layers: [{ id: 'glass', material: glass, thicknessMm: 5, startC: 20 }],
      roomC: 20,
      phases: [
        { name: 'heat', seconds: 120, top: { kind: 'flux', wPerM2: 9000 }, bottom: { kind: 'insulated' } },
      ],
      probes: [],
    };
    const { profiles } = runHeat(run, { profilesAtSeconds: [120] });
    const expected = (9000 * 0.005) / (3 * 1.05);
    expect(Math.abs(shockK(profiles[0]!, 'glass') / expected - 1)).toBeLessThan(0.005);
  });

  it('sags and comes back', () => {
    const sag = platenSag(result, 'top', 200);
    expect(sag.deepestK).toBeGreaterThan(5);
    expect(sag.backSeconds).not.toBeNull();
    expect(platenSag(result, 'bottom', 200).deepestK).toBe(0);
  });

  it('counts the energy of a piece while the press is taken up by it', () => {
    const energy = pieceEnergy(result, 100);
    // Slate alone: ρ c L ΔT = 2750 · 760 · 0.008 · about 170 K on 100 cm².
    const stone = (2750 * 760 * 0.008 * 170 * 0.01) / 3600;
    expect(energy.intoStackWh).toBeGreaterThan(stone * 0.9);
    expect(energy.intoStackWh).toBeLessThan(stone * 1.4);
    expect(energy.electricWh).toBeCloseTo(energy.intoStackWh + energy.lostWh, 9);
  });

  it('5 °C of platen cost about what Arrhenius says of 5 °C, for a long press', () => {
    // At 90 kJ/mol and 200 °C, 5 K are exp(90000/8.314 · 5/473²) = 1.27; while warming up less.
    const cost = platenErrorCost(
      { run: press, pressPhase: 'press', dyeProbe: 'dye' },
      {
        activationKJPerMol: 90,
        referenceC: 200,
      },
    );
    expect(cost.doseRatioHotter).toBeGreaterThan(1.15);
    expect(cost.doseRatioHotter).toBeLessThan(1.28);
    expect(1 / cost.doseRatioCooler).toBeGreaterThan(1.15);
    expect(1 / cost.doseRatioCooler).toBeLessThan(1.3);
    expect(cost.secondsToAdd!).toBeGreaterThan(cost.secondsToTakeAway!);
    expect(cost.secondsToTakeAway!).toBeGreaterThan(0);
  });

  it('estimates drying: water boils off with the heat that flows at 100 °C', () => {
    const drying = dryingEstimate(result, 'paper', 6)!;
    expect(drying.heatSeconds).toBeCloseTo(reachesAt(result, 'paper', 100, 'press')!, 9);
    // 6 g/m² take 13.5 kJ/m²; through cover, joints and paper some 20 to 60 kW/m² flow so early.
    expect(drying.boilSeconds).toBeGreaterThan(13.5 / 60);
    expect(drying.boilSeconds).toBeLessThan(13.5 / 20);
    const cold = runHeat({ ...press, phases: [{ ...press.phases[0]!, seconds: 0.1 }] });
    expect(dryingEstimate(cold, 'paper', 6)).toBeNull();
  });

  it('the oven’s heat near 200 °C: 20 to 48 W/m²K, 75 to 80 % of it radiation (Baik 1999)', () => {
    const flat = ovenRun(
      {
        blank: { material: materials.aluminium, thicknessMm: 3, coatingMm: null },
        ovenC: 200,
        pressure: 'light',
        blankStartC: 190,
      },
      { bakeSeconds: 1 },
      null,
    );
    const bare = flat.layers.filter((layer) => layer.id === 'blank');
    const inOven = (phases: HeatRun['phases']): number => {
      const run = { ...flat, layers: bare, phases, probes: [{ name: 'face', layer: 'blank', depth: 0 }] };
      const first = runHeat(run);
      return first.intoStackWPerM2[0]! / 2 / (200 - first.probes.face![0]!);
    };
    const whole = inOven(flat.phases);
    const still = flat.phases.map((phase) => ({
      ...phase,
      top: { ...phase.top, emissivity: 0 },
      bottom: { ...phase.bottom, emissivity: 0 },
    })) as HeatRun['phases'];
    const radiative = 1 - inOven(still) / whole;
    expect(whole).toBeGreaterThan(20);
    expect(whole).toBeLessThan(48);
    expect(radiative).toBeGreaterThan(0.75);
    expect(radiative).toBeLessThan(0.8);
  });

  it('what one touches: equal bodies meet half way, a metal wins', () => {
    expect(contactC(materials.slate, 100, materials.slate, 20)).toBeCloseTo(60, 9);
    expect(contactC(materials.aluminium, 100, materials.paper, 20)).toBeGreaterThan(97);
    expect(effusivity(materials.slate)).toBeCloseTo(Math.sqrt(2 * 2750 * 760), 9);
  });
});
