import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { withFactors } from './factors.js';
import { type ContactEvidence, fitContacts } from './fit-contacts.js';
import { materials } from './materials.js';
import { type PressCase, pressDose, withDwell } from './press-case.js';
import { flatPressRun } from './press-stack.js';
import { runHeat } from './run-heat.js';
import { firstReaches, valueAt } from './series.js';
import type { HeatRun } from './types.js';

/** A lumped plate on a hot face through one joint: T = Tp − (Tp − T₀) exp(−t/(R ρ c L)), apart from the solver. */
const guessR = 8e-4;
const plateRun: HeatRun = {
  geometry: { kind: 'plane' },
  layers: [
    {
      id: 'plate',
      material: materials.aluminium,
      thicknessMm: 2,
      startC: 20,
      contactM2KPerW: guessR,
      lumped: true,
    },
  ],
  roomC: 20,
  phases: [
    { name: 'press', seconds: 30, top: { kind: 'fixed', celsius: 200 }, bottom: { kind: 'insulated' } },
  ],
  probes: [{ name: 'plate', layer: 'plate', depth: 0.5 }],
};

function plateTrace(factor: number, seed: number, sdK: number, offsetK = 0): ContactEvidence {
  const random = createRandom(seed);
  const tau = guessR * factor * 2700 * 880 * 0.002;
  const readings = Array.from({ length: 15 }, (_, i) => {
    const atSeconds = 1 + 2 * i * 0.95;
    return { atSeconds, celsius: 200 - 180 * Math.exp(-atSeconds / tau) + offsetK + sdK * random.normal() };
  });
  return { kind: 'trace', run: plateRun, probe: 'plate', readings, readingSdK: Math.max(sdK, 0.2) };
}

describe('contacts from the shop’s own runs', () => {
  it.each([0.4, 1, 2.2])(
    'finds a joint %d times as resistant as guessed, from the closed solution',
    (factor) => {
      const fit = fitContacts({ joints: ['plate'], evidence: [plateTrace(factor, 1, 0)] });
      expect(fit.converged).toBe(true);
      expect(fit.contacts.plate!.factor / factor).toBeCloseTo(1, 2);
      expect(fit.contacts.plate!.learnt).toBeGreaterThan(0.9);
      expect(fit.misfit).toBeLessThan(0.5);
    },
  );

  it('its spread holds the truth as often as it says', () => {
    const random = createRandom(5);
    let held = 0;
    for (let seed = 0; seed < 40; seed += 1) {
      const truth = Math.exp(0.6 * random.normal());
      const evidence = [plateTrace(truth, 100 + seed, 2, 2 * random.normal())];
      const { factor, sdLog } = fitContacts({ joints: ['plate'], evidence }).contacts.plate!;
      if (Math.abs(Math.log(factor / truth)) < 1.645 * sdLog) held += 1;
    }
    // 36 expected; fewer than 30 would come about once in 300 times.
    expect(held).toBeGreaterThanOrEqual(30);
  });

  const tile = flatPressRun(
    { blank: { material: materials['glazed-ceramic'], thicknessMm: 6 }, setC: 200, pressure: 'medium' },
    { dwellSeconds: 180 },
  );

  it('does not pretend to learn a joint that the trace hardly feels', () => {
    const truth = { contacts: { transfer: 2 } };
    const trace = runHeat(withFactors(tile, truth));
    const random = createRandom(8);
    const readings = [5, 10, 20, 30, 45, 60, 90, 120].map((atSeconds) => ({
      atSeconds,
      celsius: valueAt(trace.seconds, trace.probes.dye!, atSeconds) + random.normal(),
    }));
    const fit = fitContacts({
      joints: ['transfer', 'pad'],
      evidence: [{ kind: 'trace', run: tile, probe: 'dye', readings, readingSdK: 1 }],
    });
    const { transfer, pad } = fit.contacts;
    expect(Math.abs(Math.log(transfer!.factor / 2))).toBeLessThan(2.5 * transfer!.sdLog);
    expect(transfer!.learnt).toBeGreaterThan(0.5);
    expect(pad!.learnt).toBeLessThan(0.2);
  });

  it('two good recipes that disagree move a joint towards agreement, but the prior holds', () => {
    const pressCase = (run: HeatRun): PressCase => ({ run, pressPhase: 'press', dyeProbe: 'dye' });
    const plate = pressCase(
      flatPressRun(
        { blank: { material: materials.aluminium, thicknessMm: 1.1 }, setC: 200, pressure: 'medium' },
        { dwellSeconds: 70 },
      ),
    );
    const kinetics = { activationKJPerMol: 90, referenceC: 200 };
    // What is true: the joint at the transfer is twice as resistant. So the tile's good time is as this world has it.
    const world = { contacts: { transfer: 2 } };
    const inWorld = (one: PressCase) => pressDose({ ...one, run: withFactors(one.run, world) }, kinetics);
    const course = inWorld(withDwell(pressCase(tile), 900));
    const good = firstReaches(course.seconds, course.dose, inWorld(plate).dose.at(-1)!)!;
    const fit = fitContacts({
      joints: ['transfer'],
      evidence: [{ kind: 'same-dose', first: plate, second: withDwell(pressCase(tile), good), sdLog: 0.05 }],
      kinetics,
    });
    const { factor, learnt } = fit.contacts.transfer!;
    expect(factor).toBeGreaterThan(1);
    expect(factor).toBeLessThan(2.3);
    expect(learnt).toBeGreaterThan(0);
    expect(learnt).toBeLessThan(1);
  });

  it('refuses what it cannot learn from', () => {
    expect(() => fitContacts({ joints: ['nothing'], evidence: [plateTrace(1, 1, 0)] })).toThrow(
      /no run has/i,
    );
    expect(() => fitContacts({ joints: [], evidence: [plateTrace(1, 1, 0)] })).toThrow(/nothing to learn/);
    const trace = plateTrace(1, 1, 0) as Extract<ContactEvidence, { kind: 'trace' }>;
    const late = { ...trace, readings: [{ atSeconds: 99, celsius: 100 }] };
    expect(() => fitContacts({ joints: ['plate'], evidence: [late] })).toThrow(/outside the run/);
    expect(() => fitContacts({ joints: ['plate'], evidence: [{ ...trace, probe: 'x' }] })).toThrow(
      /No probe/,
    );
  });

  it('a trace that no joint can explain says so by its misfit', () => {
    const trace = plateTrace(1, 1, 0) as Extract<ContactEvidence, { kind: 'trace' }>;
    const readings = trace.readings.map(({ atSeconds }, i) => ({
      atSeconds,
      celsius: i % 2 === 0 ? 150 : 60,
    }));
    expect(fitContacts({ joints: ['plate'], evidence: [{ ...trace, readings }] }).misfit).toBeGreaterThan(2);
  });
});
