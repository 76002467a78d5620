import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { findBand } from './banding.js';
import { feedError } from './feed-error.js';
import { lineFrequency } from './line-frequency.js';
import { twoHeaps } from './two-heaps.js';
import type { ScanLengths } from './types.js';

const noise = (seed: number): (() => number) => createRandom(seed).normal;

describe('line frequency', () => {
  it.each([3.9, 2.36, 1.2, 0.61])('of an analytic grating of %d lines a millimetre', (frequency) => {
    const normal = noise(7);
    const step = 0.5 / 23.6;
    const n = Math.floor(6.2 / step);
    const values = Float64Array.from(
      { length: n },
      (_, i) => 0.5 + 0.31 * Math.cos(2 * Math.PI * frequency * i * step + 0.7) + 0.01 * normal(),
    );
    // Started 1.5 % off, as a sheet's scale may be.
    const seen = lineFrequency(values, step, 1.015 * frequency);
    expect(Math.abs(seen.frequency / frequency - 1)).toBeLessThan(0.002);
    expect(Math.abs(seen.amplitude / 0.31 - 1)).toBeLessThan(0.01);
  });

  it('of bars as wide as their gaps: the first harmonic is 2/π of their contrast', () => {
    const step = 0.001;
    const values = Float64Array.from({ length: 6000 }, (_, i) => ((i * step) % 0.5 < 0.25 ? 0.1 : 0.9));
    const { frequency, amplitude } = lineFrequency(values, step, 2.02);
    expect(frequency).toBeCloseTo(2, 3);
    expect(amplitude).toBeCloseTo((2 / Math.PI) * 0.8, 3);
  });
});

describe('bands', () => {
  it.each([
    [4.23, 0.4],
    [8.47, 0.3],
    [1.6, 0.3],
  ])('of %d mm are found in noise and drift', (period, amplitude) => {
    const normal = noise(3);
    const values = Float64Array.from(
      { length: 700 },
      (_, i) => 60 + 1e-5 * i * i + amplitude * Math.sin((2 * Math.PI * i * 0.1) / period) + 0.25 * normal(),
    );
    const { band, limit } = findBand(values, 0.1, 0.6);
    expect(Math.abs(band!.period / period - 1)).toBeLessThan(0.01);
    expect(Math.abs(band!.amplitude / amplitude - 1)).toBeLessThan(0.25);
    expect(limit).toBeLessThan(amplitude);
  });

  it('white lines once a pass have the pass as their period, not a part of it', () => {
    const normal = noise(9);
    const values = Float64Array.from(
      { length: 700 },
      (_, i) => 60 + ((i * 0.1) % 4.4 < 0.2 ? 3 : 0) + 0.25 * normal(),
    );
    expect(findBand(values, 0.1, 0.6).band!.period).toBeCloseTo(4.4, 1);
  });

  it('are seen in at most 2 of 200 plain noises, white or with memory', () => {
    let falseAlarms = 0;
    for (let seed = 1; seed <= 200; seed += 1) {
      const normal = noise(seed);
      let last = 0;
      const memory = seed % 2 === 0 ? 0 : 0.6;
      const values = Float64Array.from({ length: 480 }, () => {
        last = memory * last + normal();
        return last;
      });
      if (findBand(values, 0.1, 0.6).band) falseAlarms += 1;
    }
    expect(falseAlarms).toBeLessThanOrEqual(2);
  });
});

describe('two heaps', () => {
  it('are told from one, with crooked nozzles among them', () => {
    let falseAlarms = 0;
    for (let seed = 1; seed <= 300; seed += 1) {
      const normal = noise(seed);
      const one = Array.from({ length: 120 }, (_, i) => 5 * normal() + (i % 40 === 0 ? 60 : 0));
      if (twoHeaps(one).areTwo) falseAlarms += 1;
    }
    expect(falseAlarms).toBeLessThanOrEqual(3);
    for (const share of [0.2, 0.35, 0.5, 0.62, 0.8]) {
      const normal = noise(6);
      const unequal = twoHeaps(
        Array.from({ length: 400 }, (_, i) => 4 * normal() + (i < 400 * share ? 100 : 0)),
      );
      expect(Math.abs(unequal.high - unequal.low - 100), `share ${share}`).toBeLessThan(2);
    }
    const normal = noise(5);
    const heaps = twoHeaps(Array.from({ length: 200 }, (_, i) => 8 * normal() + (i % 2 ? 25 : -25)));
    expect(heaps.areTwo).toBe(true);
    expect(Math.abs(heaps.high - heaps.low - 50)).toBeLessThan(3 * heaps.sdOfGap);
  });
});

describe('feed', () => {
  /** A sheet with a feed `f` too long on a scanner `s` too long along its picture's height; lengths by hand. */
  const scan = (f: number, s: number, turnDegrees: number): ScanLengths => ({
    acrossPixelsPerMm: 23.6 * (turnDegrees % 180 === 0 ? 1 : 1 + s),
    alongPixelsPerMm: 23.6 * (1 + f) * (turnDegrees % 180 === 0 ? 1 + s : 1),
    ratioSd: 0.0001,
    turnDegrees,
  });

  it('is parted from the scanner’s travel by a scan turned by a quarter, whichever way', () => {
    for (const [first, second] of [
      [0, 90],
      [0, -90],
      [90, 180],
    ] as const) {
      const both = feedError([scan(0.003, -0.004, first), scan(0.003, -0.004, second)]);
      expect(both.from).toBe('two-scans');
      expect(both.errorPercent).toBeCloseTo(0.3, 9);
      expect(both.scannerPercent).toBeCloseTo(-0.4, 9);
    }
  });

  it('from one scan is the two together, and its doubt says so', () => {
    const one = feedError([scan(0, 0.001, 0)]);
    expect(one.from).toBe('one-scan');
    expect(one.errorPercent).toBeCloseTo(0.1, 6);
    expect(one.uncertaintyPercent).toBeGreaterThan(0.1);
    // Two scans the same way round tell no more.
    expect(feedError([scan(0, 0.001, 0), scan(0, 0.001, 180)]).from).toBe('one-scan');
    expect(feedError([scan(0.002, 0.001, 90)], 0.1).errorPercent).toBeCloseTo(0.2, 6);
  });
});
