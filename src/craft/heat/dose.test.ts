import { describe, expect, it } from 'vitest';
import { doseCourse, doseRate, doseSeconds } from './dose.js';
import { firstReaches } from './series.js';

describe('dose', () => {
  // exp[(Ea/R)(1/463.15 − 1/473.15)], worked out apart from this program.
  it.each([
    [80, 1.55],
    [100, 1.73],
    [120, 1.93],
    [150, 2.28],
  ])('from 190 to 200 °C at %d kJ/mol everything goes %d times as fast', (activationKJPerMol, factor) => {
    const kinetics = { activationKJPerMol, referenceC: 190 };
    expect(doseRate(200, kinetics)).toBeCloseTo(factor, 2);
    expect(doseRate(190, kinetics)).toBe(1);
  });

  it('the two published optima, 190 °C for 120 s and 210 °C for 60 s, are equal doses at about 64 kJ/mol', () => {
    const kinetics = { activationKJPerMol: 64.5, referenceC: 200 };
    const at = (celsius: number, seconds: number): number =>
      doseSeconds({ seconds: [0, seconds], celsius: [celsius, celsius] }, kinetics);
    expect(at(190, 120) / at(210, 60)).toBeCloseTo(1, 2);
  });

  it('integrates a curved trace as the same integral on a thousandfold finer grid', () => {
    const kinetics = { activationKJPerMol: 110, referenceC: 200 };
    const curve = (s: number): number => 200 - 180 * Math.exp(-s / 12);
    const seconds = Array.from({ length: 40 }, (_, i) => 90 * (i / 39) ** 2);
    const dose = doseSeconds({ seconds, celsius: seconds.map(curve) }, kinetics);
    let exact = 0;
    for (let i = 0; i < 90_000; i += 1) exact += doseRate(curve((i + 0.5) / 1000), kinetics) / 1000;
    expect(Math.abs(dose / exact - 1)).toBeLessThan(1e-3);
  });

  it('adds nothing across a jump or while the layer is not there, and finds when it is reached', () => {
    const kinetics = { activationKJPerMol: 100, referenceC: 200 };
    const trace = { seconds: [0, 10, 10, 20, 30], celsius: [200, 200, Number.NaN, Number.NaN, 200] };
    expect([...doseCourse(trace, kinetics)]).toEqual([0, 10, 10, 10, 10]);
    expect(firstReaches(trace.seconds, doseCourse(trace, kinetics), 5)).toBe(5);
    expect(firstReaches(trace.seconds, doseCourse(trace, kinetics), 11)).toBeNull();
  });

  it('counts a part of the trace', () => {
    const trace = { seconds: [0, 100], celsius: [200, 200] };
    const kinetics = { activationKJPerMol: 100, referenceC: 200 };
    expect(doseSeconds(trace, kinetics, { fromSeconds: 20, toSeconds: 50 })).toBeCloseTo(30, 9);
  });

  it('refuses times that run backwards', () => {
    const kinetics = { activationKJPerMol: 100, referenceC: 200 };
    expect(() => doseCourse({ seconds: [0, 2, 1], celsius: [1, 1, 1] }, kinetics)).toThrow(/backwards/);
  });
});
