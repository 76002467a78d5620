import { describe, expect, it } from 'vitest';
import { judgeHealth } from './judge-health.js';
import type { HealthReading, InkHealth } from './types.js';

const ladder = {
  isMeasured: true,
  steps: 369,
  missing: [],
  weak: [],
  deflected: [],
  inkScatter: 0.01,
  placeScatterUm: 2,
  lineSigmaUm: 55,
} as const;
const well: InkHealth = {
  ink: 'black',
  ladder,
  banding: {
    isMeasured: true,
    amplitudeL: 0,
    periodMm: null,
    limitL: 0.05,
    matchesPass: null,
    isReaders: false,
  },
  grain: { isMeasured: true, grainL: 0.6, mottleL: 0.1 },
  sharpness: {
    isMeasured: true,
    acrossUm: 105,
    alongUm: 98,
    sdUm: 2,
    mtf50PerMm: 4.7,
    isReadersLimit: false,
  },
  solidDensity: { isMeasured: true, density: 1.2, pinholeShare: 0 },
};
const reading: HealthReading = {
  sheetId: '0000000000',
  surface: 'paper',
  pixelsPerMm: 23.6,
  inks: [well],
  twoWay: { isMeasured: true, offsetUm: 0, uncertaintyUm: 10, heaps: 1, pattern: null, rowScatterUm: 5 },
  grids: [],
  lengths: { acrossPixelsPerMm: 23.6, alongPixelsPerMm: 23.6, ratioSd: 0.0001, turnDegrees: 0 },
  feed: { errorPercent: 0.01, uncertaintyPercent: 0.03, from: 'two-scans', scannerPercent: 0.1 },
  remarks: [],
};
const kinds = (changed: Partial<HealthReading>) =>
  judgeHealth({ ...reading, ...changed }).acts.map(({ kind }) => kind);
const withBlack = (changed: Partial<InkHealth>): Partial<HealthReading> => ({
  inks: [{ ...well, ...changed }],
});

describe('the verdict', () => {
  it('nothing found and everything told is well; one scan alone leaves a doubt', () => {
    expect(judgeHealth(reading)).toMatchObject({ state: 'well', findings: [], untold: [] });
    const one = { ...reading.feed, uncertaintyPercent: 0.2, from: 'one-scan', scannerPercent: null } as const;
    expect(judgeHealth({ ...reading, feed: one }).state).toBe('unsure');
    // A feed that seems off by less than the scanner may be is no finding.
    expect(judgeHealth({ ...reading, feed: { ...one, errorPercent: 0.3 } }).findings).toEqual([]);
  });

  it('each fault has the act that follows', () => {
    const step = { step: 40, inkShare: 0.05, offUm: 0 };
    expect(kinds(withBlack({ ladder: { ...ladder, missing: [step] } }))).toEqual([
      'clean-head',
      'idle-routine',
    ]);
    expect(kinds(withBlack({ ladder: { ...ladder, weak: [step] } }))).toEqual([
      'clean-head',
      'finer-quality',
    ]);
    const apart = {
      ...reading.twoWay,
      offsetUm: 100,
      uncertaintyUm: 5,
      heaps: 2,
      pattern: { kind: 'woven' },
    };
    expect(kinds({ twoWay: apart as HealthReading['twoWay'] })).toEqual(['align-head', 'one-way-printing']);
    const bands = {
      ...well.banding,
      amplitudeL: 1,
      periodMm: 6.35,
      matchesPass: 'pass',
    } as InkHealth['banding'];
    expect(kinds(withBlack({ banding: bands }))).toEqual(['adjust-feed', 'finer-quality']);
  });

  it('the scanner’s own bands, and offsets too small to be seen, are nobody’s fault', () => {
    const bands = { ...well.banding, amplitudeL: 1, periodMm: 6.35, isReaders: true } as InkHealth['banding'];
    const verdict = judgeHealth({ ...reading, ...withBlack({ banding: bands }) });
    expect(verdict.findings).toEqual([]);
    expect(verdict.untold[0]).toMatch(/scanner/);
    const apart = { ...reading.twoWay, offsetUm: 42, uncertaintyUm: 5, heaps: 2 } as HealthReading['twoWay'];
    expect(judgeHealth({ ...reading, twoWay: apart }).findings).toEqual([]);
  });

  it('rows filled from both directions are told by softer upright edges', () => {
    // 0.10 mm apart: w² = 98² + (2.563 · 50)².
    const sharpness = { ...well.sharpness, acrossUm: Math.hypot(98, 2.563 * 50) } as InkHealth['sharpness'];
    const verdict = judgeHealth({ ...reading, ...withBlack({ sharpness }) });
    expect(verdict.findings[0]).toContain('0.10 mm apart');
    expect(verdict.acts.map(({ kind }) => kind)).toEqual(['scan-again', 'align-head']);
  });
});
