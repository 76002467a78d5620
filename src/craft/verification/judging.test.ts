import { describe, expect, it, test } from 'vitest';
import { worstGrade } from './grade-words.js';
import { joinErrors, poolErrors } from './join-errors.js';
import { type CheckEvidence, judgeCheck } from './judge-check.js';
import { judgeRouteStrip } from './judge-route-strip.js';
import { type PrintRoute, routeChanges } from './route-changes.js';
import { checkedPatch, spreadOf, summariseCheck } from './summarise-check.js';

describe('figures of a check', () => {
  it('95 % is the nearest rank: of 1 to 100 the 95th, of few the largest', () => {
    // NIST/SEMATECH e-Handbook, 7.2.6.2, for the nearest-rank rule; plain counting here.
    expect(spreadOf(Array.from({ length: 100 }, (_, i) => 100 - i))).toEqual({
      count: 100,
      mean: 50.5,
      p95: 95,
      max: 100,
    });
    expect(spreadOf([2, 1])).toMatchObject({ p95: 2, max: 2 });
    expect(spreadOf([])).toBeNull();
  });

  it('colours out of reach are set apart; distances are CIEDE2000', () => {
    // Sharma, Wu & Dalal 2005, table 1, pairs 1 and 25.
    const summary = summariseCheck([
      checkedPatch([50, 2.6772, -79.7751], [50, 0, -82.7485], 'colour'),
      checkedPatch([60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 'neutral'),
      checkedPatch([50, 0, 0], [90, 0, 0], 'limited'),
    ])!;
    expect(summary.overall).toMatchObject({ count: 2 });
    expect(summary.overall.max).toBeCloseTo(2.0425, 4);
    expect(summary.neutrals!.mean).toBeCloseTo(1.2644, 4);
    expect(summary.limited!.count).toBe(1);
    expect(summariseCheck([checkedPatch([50, 0, 0], [50, 0, 0], 'limited')])).toBeNull();
  });
});

describe('the verdict', () => {
  const evidence = (mean: number, more: Partial<CheckEvidence> = {}): CheckEvidence => ({
    summary: {
      overall: { count: 30, mean, p95: 2 * mean, max: 3 * mean },
      neutrals: { count: 9, mean: 0.8 * mean, p95: mean, max: mean },
      limited: null,
    },
    expectedMean: 1,
    readingMean: 0,
    earlier: [],
    ...more,
  });

  it.each([
    [0.9, 'good'],
    [1.6, 'good'],
    [2, 'look'],
    [3, 'stale'],
  ])('a mean of %d where 1 was expected: %s', (mean, verdict) => {
    expect(judgeCheck(evidence(mean)).verdict).toBe(verdict);
  });

  it('names the figures of proofs only to compare, in words for who checks', () => {
    const last = (mean: number) => judgeCheck(evidence(mean)).sentences.at(-1);
    expect(last(1)).toContain(
      'are held to 2.5 ΔE00 on average, 95 % within 5. These colours are within that',
    );
    expect(last(2.6)).toContain('beyond that');
    expect(last(1)).not.toContain('memory');
  });

  it('a rough reader does not make a path stale', () => {
    expect(judgeCheck(evidence(3, { readingMean: 3 })).verdict).toBe('good');
  });

  it('sees a plain rise over earlier checks, and greys worse than colours', () => {
    const earlier = [{ mean: 0.5, day: '2026-02-01' }];
    const risen = judgeCheck(evidence(1.5, { earlier }));
    expect(risen.verdict).toBe('look');
    expect(risen.sentences.join(' ')).toContain('The check before: 0.5; it has risen plainly');
    const { summary } = evidence(1);
    const greys = judgeCheck(
      evidence(1, { summary: { ...summary, neutrals: { count: 9, mean: 2.2, p95: 3, max: 3 } } }),
    );
    expect(greys.verdict).toBe('look');
    expect(greys.sentences.join(' ')).toContain('beside a grey card');
  });
});

describe('joined errors', () => {
  it('are the root sum of squares (3, 4 → 5) and rest on the shakier', () => {
    const reading = { meanDeltaE00: 4, p95DeltaE00: 12, restsOn: 'published' } as const;
    expect(joinErrors({ meanDeltaE00: 3, p95DeltaE00: 5 }, reading)).toEqual({
      meanDeltaE00: 5,
      p95DeltaE00: 13,
      restsOn: 'published',
    });
    expect(joinErrors({ meanDeltaE00: 3, p95DeltaE00: 5 }, null).restsOn).toBe('measured');
  });

  it('of several readings are their quadratic mean by patches', () => {
    const error = (v: number, restsOn: 'calibration' | 'rule-of-thumb') => ({
      meanDeltaE00: v,
      p95DeltaE00: 2 * v,
      restsOn,
    });
    expect(
      poolErrors([
        { patches: 10, error: error(1, 'calibration') },
        { patches: 10, error: error(7, 'rule-of-thumb') },
      ]),
    ).toEqual({ meanDeltaE00: 5, p95DeltaE00: 10, restsOn: 'rule-of-thumb' });
    expect(poolErrors([{ patches: 10, error: null }])).toBeNull();
    expect(worstGrade(['A', 'D', 'B'])).toBe('D');
  });
});

describe('the route strip', () => {
  const strip = (off: number, count = 12) =>
    Array.from({ length: count }, (_, i) => ({
      name: `patch ${i}`,
      expectedLab: [50, 0, 0] as const,
      // Near L* 50 a unit of L* is about one ΔE00.
      seenLab: [50 + off, 0, 0] as const,
      doubtDeltaE00: 0.5,
    }));

  it('changed beyond doubt, reading and what differs from print to print', () => {
    expect(judgeRouteStrip(strip(1), [])!.isChanged).toBe(false);
    expect(judgeRouteStrip(strip(4), [])).toMatchObject({ isChanged: true, worst: { name: 'patch 0' } });
    expect(judgeRouteStrip(strip(4), [2, 2])!.isChanged).toBe(false);
    expect(judgeRouteStrip(strip(9, 3), [])).toBeNull();
  });
});

describe('what has changed', () => {
  const then: PrintRoute = {
    setup: {
      printer: 'Desktop printer',
      ink: 'Ink one',
      paper: { name: 'Transfer paper' },
      driverSettings: ['Best', 'No colour management'],
      mirroredBy: 'sheet',
    },
    blank: {
      name: 'Slate coaster',
      material: 'slate',
      coating: { kind: 'polymer', side: 'Glossy face' },
      polyesterPercent: null,
      recipe: { platenC: 195, dwellSeconds: 240, pressure: 'light' },
    },
  };
  const changed = (setup: Partial<PrintRoute['setup']>, blank: Partial<PrintRoute['blank']> = {}) =>
    routeChanges(then, { setup: { ...then.setup, ...setup }, blank: { ...then.blank, ...blank } }).map(
      ({ what, weight }) => `${what}:${weight}`,
    );

  test.each([
    [{}, {}, []],
    [{ ink: ' ink  ONE' }, {}, []],
    [{ ink: 'Ink two' }, {}, ['ink:stale']],
    [{ driverSettings: ['No colour management', 'Best'] }, {}, []],
    [{ driverSettings: ['Best'] }, {}, ['driver:stale']],
    [{ mirroredBy: 'driver' as const }, {}, ['mirroring:look']],
    [{}, { recipe: { platenC: 198, dwellSeconds: 250, pressure: 'light' } }, []],
    [{}, { recipe: { platenC: 200, dwellSeconds: 240, pressure: 'light' } }, ['recipe:look']],
    [{}, { recipe: { platenC: 180, dwellSeconds: 240, pressure: 'light' } }, ['recipe:stale']],
    [{}, { name: 'Slate panel' }, ['blank:look']],
    [
      {},
      { name: 'Mug', material: 'ceramic', recipe: { platenC: 180, dwellSeconds: 180, pressure: 'firm' } },
      ['blank:stale'],
    ],
  ])('%j %j: %j', (setup, blank, expected) => {
    expect(changed(setup, blank)).toEqual(expected);
  });

  test('nothing is said of what one side does not know', () => {
    expect(routeChanges({ blank: then.blank }, { setup: then.setup })).toEqual([]);
  });
});
