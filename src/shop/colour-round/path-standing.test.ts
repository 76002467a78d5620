import { expect, test } from 'vitest';
import type { ColourPath, Reading, TestSheetSnapshot } from '#contract';
import type { Triple, Triple3 } from '#craft/colour';
import { routePatches } from '#craft/sheet';
import { dyeOnCoating, measured } from '../../../tests/simulator/virtual-printer.js';
import type { ColourRoundParts } from './parts.js';
import { pathStanding } from './path-standing.js';

/** The printer the path was measured on, and its strip as a later reading sees it; both invented. */
const printer = dyeOnCoating(1);
const setup = {
  id: 'desk',
  printer: 'Desk printer',
  ink: 'Ink',
  paper: { name: 'Paper' },
  driverSettings: [],
  mirroredBy: 'sheet',
};
const blank = {
  id: 'tile',
  name: 'Tile',
  material: 'ceramic',
  coating: { kind: 'polymer', side: 'Glossy' },
  polyesterPercent: null,
  recipe: { platenC: 195, dwellSeconds: 180, pressure: 'medium' },
};
const belongsTo = { setup, blank } as unknown as TestSheetSnapshot;
const white = printer.print([[1, 1, 1]])[0]!;

const path = {
  id: 'p',
  createdAt: '2026-01-10T00:00:00.000Z',
  measurement: { grade: 'A', readingIds: ['own'], gamut: { whiteLab: white } },
  belongsTo,
} as unknown as ColourPath;

const strip = (weaker: number, seed: number): Reading['routeStrip'] => {
  const rgb = routePatches.map((patch) => patch.rgb.map((v) => v / 255) as Triple3);
  const lab = measured(
    printer.print(rgb.map((row): Triple => row.map((v) => v + weaker * (1 - v)) as Triple3)),
    0.4,
    seed,
  );
  return routePatches.map((patch, i) => ({ name: patch.name, deviceRgb: [...patch.rgb], lab: lab[i]! }));
};

const reading = (id: string, day: number, weaker: number, more: Partial<Reading> = {}): Reading =>
  ({
    id,
    sheetId: 's',
    subject: 'piece',
    grade: 'A',
    groundLab: white,
    routeStrip: strip(weaker, day),
    createdAt: `2026-02-${String(day).padStart(2, '0')}T00:00:00.000Z`,
    ...more,
  }) as Reading;

const parts = (readings: Reading[]): ColourRoundParts =>
  ({
    records: { pathChecks: { list: async () => [] } },
    readings: { list: async () => readings },
    testSheets: { snapshot: async () => belongsTo },
    setups: { get: async () => setup },
    blanks: { get: async () => blank },
    paths: {
      foresee: async (_: ColourPath, rgb: readonly Triple[]) =>
        printer.print(rgb).map((lab) => ({ lab, sdLab: [0.3, 0.3, 0.3], expectedDeltaE00: 0.4 })),
    },
    now: () => new Date('2026-03-01T00:00:00.000Z'),
  }) as unknown as ColourRoundParts;

test('a strip that comes out as the path says changes nothing', async () => {
  expect(await pathStanding(parts([reading('a', 3, 0)]), path, {})).toMatchObject({
    standing: 'fits',
    reasons: [],
  });
});

test('a strip of weaker ink makes the path stale, and the sentence says by how much', async () => {
  const { standing, reasons } = await pathStanding(parts([reading('a', 3, 0.25)]), path, {});
  expect(standing).toBe('stale');
  expect(reasons).toHaveLength(1);
  expect(reasons[0]!.sentence).toMatch(
    /read on 2026-02-03 come out \d\.\d ΔE00 from what the path says \(up to \d\.\d is in order; worst: \S+, \d+\.\d\)/,
  );
});

test('only the newest later reading of a piece counts, by the same setup and blank', async () => {
  const of = async (readings: Reading[]) => (await pathStanding(parts(readings), path, {})).standing;
  expect(await of([reading('old', 2, 0.25), reading('new', 9, 0)])).toBe('fits');
  expect(await of([reading('paper', 9, 0.25, { subject: 'paper' })])).toBe('fits');
  expect(await of([reading('own', 9, 0.25)])).toBe('fits');
  expect(await of([reading('before', 9, 0.25, { createdAt: '2026-01-01T00:00:00.000Z' })])).toBe('fits');
  // A rough reader cannot tell.
  const rough = { meanDeltaE00: 6, p95DeltaE00: 12, restsOn: 'published' } as const;
  expect(await of([reading('rough', 9, 0.25, { grade: 'D', expectedError: rough })])).toBe('fits');
});

test('age alone is a note', async () => {
  const old = { ...path, createdAt: '2025-03-01T00:00:00.000Z' };
  const { standing, reasons } = await pathStanding(parts([]), old, {});
  expect(standing).toBe('fits');
  expect(reasons.map((reason) => reason.sentence)).toEqual([
    'The path is 12 months old: batches of ink, paper and coats change. A check sheet tells.',
  ]);
});
