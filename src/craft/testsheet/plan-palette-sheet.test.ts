import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import { newSheetId, type Rgb8 } from '#craft/sheet';
import { planPaletteSheet } from './index.js';
import { inside, overlaps, printedBoxes } from './testing/boxes.js';
import type { PaletteSheetOrder } from './types.js';

const sheetId = newSheetId(Uint8Array.of(9, 9, 9, 1, 2, 3));
const order = (
  swatches: PaletteSheetOrder['swatches'],
  [widthMm, heightMm]: readonly [number, number] = [210, 297],
): PaletteSheetOrder => ({ sheetId, widthMm, heightMm, marginMm: 3, mirrorOnWriting: true, swatches });
const many = (count: number, title = (i: number) => `colour ${i + 1}`): PaletteSheetOrder['swatches'] =>
  Array.from({ length: count }, (_, i) => ({
    deviceRgb: [i % 256, (7 * i) % 256, (31 * i) % 256] as Rgb8,
    title: title(i),
    note: `#${(i * 7919).toString(16).padStart(6, '0')}`,
  }));
const problemOf = (make: () => unknown): string => {
  try {
    make();
  } catch (error) {
    if (isProblem(error)) return `${error.code}: ${error.message} ${error.remedy}`;
    throw error;
  }
  return 'none';
};

const words = fc.constantFrom(
  'pale',
  'bright',
  'deep',
  'marsh',
  'Commodore’s',
  'oar',
  'W',
  'Überführungsblau',
  '',
);
const title = fc.array(words, { maxLength: 4 }).map((some) => some.join(' '));
const swatch = fc.record({
  deviceRgb: fc.tuple(
    ...[0, 1, 2].map(() => fc.integer({ min: 0, max: 255 })),
  ) as unknown as fc.Arbitrary<Rgb8>,
  title,
  note: fc.constantFrom('#a1b2c3', '#ffffff', ''),
});

describe('a palette sheet', () => {
  it('bears every swatch as asked for, nothing over anything else, all of it printable', () => {
    fc.assert(
      fc.property(
        fc.array(swatch, { minLength: 1, maxLength: 120 }),
        fc.constantFrom([210, 297], [297, 210], [297, 420], [148, 210]),
        (swatches, size) => {
          const paper = size as [number, number];
          let planned: ReturnType<typeof planPaletteSheet>;
          try {
            planned = planPaletteSheet(order(swatches, paper));
          } catch (error) {
            expect(isProblem(error) && error.code).toBe('sheet.impossible');
            return;
          }
          const { plan } = planned;
          expect(planned.swatches.map(({ rect: _, ...rest }) => rest)).toEqual(swatches);
          const fills = plan.marks.flatMap((mark) =>
            mark.kind === 'fill' && mark.role === 'patch' ? [mark] : [],
          );
          expect(fills.map(({ rgb }) => rgb)).toEqual(swatches.map(({ deviceRgb }) => deviceRgb));
          expect(overlaps(plan)).toEqual([]);
          const printable = { xMm: 3, yMm: 3, widthMm: paper[0] - 6, heightMm: paper[1] - 6 };
          for (const box of printedBoxes(plan)) expect(inside(box, printable)).toBe(true);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('sets titles and notes in capitals of at least 2.2 mm, never cut where they need not be', () => {
    for (const count of [1, 12, 60, 150]) {
      const { plan } = planPaletteSheet(order(many(count)));
      const texts = plan.marks.flatMap((mark) => (mark.kind === 'text' ? [mark] : []));
      const own = texts.filter(({ text }) => /^colour|^#/.test(text));
      expect(own).toHaveLength(2 * count);
      for (const { capHeightMm, text } of own) {
        expect(capHeightMm).toBeGreaterThanOrEqual(2.2);
        expect(text).not.toContain('…');
      }
    }
  });

  it('holds two hundred on A4, and says exactly how many it holds when asked for more', () => {
    expect(planPaletteSheet(order(many(200))).swatches).toHaveLength(200);
    for (const size of [
      [210, 297],
      [148, 210],
    ] as const) {
      const said = problemOf(() => planPaletteSheet(order(many(900), size)));
      const most = Number(/^sheet.impossible: 900 swatches .* at most (\d+) colours/.exec(said)?.[1]);
      expect(most).toBeGreaterThan(20);
      expect(planPaletteSheet(order(many(most), size)).swatches).toHaveLength(most);
      expect(problemOf(() => planPaletteSheet(order(many(most + 1), size)))).toContain(`at most ${most} `);
    }
  });

  it('puts families under one another', () => {
    const families = ['rose', 'red', 'lime', 'teal'];
    const titles = families.flatMap((family) =>
      ['pale', 'light', 'deep', 'dark'].map((shade) => `${shade} ${family}`),
    );
    const { swatches } = planPaletteSheet(order(many(16, (i) => titles[i]!)));
    const firsts = swatches.filter((_, i) => i % 4 === 0).map(({ rect }) => rect.xMm);
    const left = Math.min(...firsts);
    const widths = new Set(firsts.map((x) => Math.round(10 * (x - left))));
    expect(widths.size).toBeLessThanOrEqual(3);
    for (const { rect, title: name } of swatches) {
      const same = swatches.filter((other) => other.title.endsWith(name.split(' ')[1]!));
      expect(new Set(same.map((other) => Math.round(other.rect.yMm * 10))).size).toBe(1);
      expect(rect.yMm).toBeGreaterThan(0);
    }
  });

  it('refuses no colours, and paper too small for marks, in a sentence', () => {
    expect(problemOf(() => planPaletteSheet(order([])))).toMatch(/^request.invalid/);
    expect(problemOf(() => planPaletteSheet(order(many(4), [40, 30])))).toMatch(/^sheet.impossible/);
  });
});
