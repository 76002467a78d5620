import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { blankSchema, pressSchema, printSetupSchema } from '#contract';
import { developBlank } from '#craft/blank';
import { layOutSheet, newSheetId } from '#craft/sheet';
import { assertPressMakesSense } from '#shop/presses';

const read = (folder: string) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .map((name) => ({
      id: basename(name, '.json'),
      value: JSON.parse(readFileSync(join(folder, name), 'utf8')) as unknown,
    }));

describe('stock blanks', () => {
  const stock = read('data/blanks');
  it('holds a list worth choosing from', () => expect(stock.length).toBeGreaterThanOrEqual(14));

  it.each(stock)('$id is in the contract’s shape and develops', ({ id, value }) => {
    const blank = blankSchema.strict().parse(value);
    expect(blank.id).toBe(id);
    expect(blank.demo).toBe(false);
    const outline = developBlank(blank.shape);
    // A safe zone that meets itself would leave nowhere for lettering.
    expect(2 * blank.safeMm).toBeLessThan(Math.min(outline.widthMm, outline.heightMm));
    expect(blank.material === 'textile').toBe(blank.polyesterPercent !== null);
    expect(blank.coating.kind === 'fibre').toBe(blank.material === 'textile');
    expect(blank.recipe.basis).toMatch(/common practice/i);
    expect(blank.recipe.basis).toMatch(/maker's instructions come first/);
    // Bleed covers what one blank may differ from the next, where the edge is a real edge.
    expect(blank.bleedMm).toBeGreaterThanOrEqual(blank.toleranceMm);
  });

  // Common practice of the trade (no published source): 190–204 °C; cloth 30–45 s; ceramic, glass, slate 3–8 min.
  it.each(stock)('$id is pressed within common practice', ({ value }) => {
    const { material, recipe } = blankSchema.parse(value);
    expect(recipe.platenC).toBeGreaterThanOrEqual(190);
    expect(recipe.platenC).toBeLessThanOrEqual(205);
    const bounds =
      material === 'textile'
        ? [30, 45]
        : ['ceramic', 'glass', 'slate'].includes(material)
          ? [180, 480]
          : [60, 80];
    expect(recipe.dwellSeconds).toBeGreaterThanOrEqual(bounds[0]!);
    expect(recipe.dwellSeconds).toBeLessThanOrEqual(bounds[1]!);
  });

  it('shows both warnings: too little polyester and no coating', () => {
    const all = stock.map(({ value }) => blankSchema.parse(value));
    expect(all.some((b) => b.polyesterPercent !== null && b.polyesterPercent < 65)).toBe(true);
    expect(all.some((b) => b.coating.kind === 'none')).toBe(true);
  });
});

describe('stock print setups', () => {
  // ISO 216: A4 210 × 297, A3 297 × 420 mm; 13 × 19 in at 25.4 mm.
  const sizes: Record<string, readonly [number, number]> = {
    'desktop-a4': [210, 297],
    'desktop-a3': [297, 420],
    'desktop-13x19': [13 * 25.4, 19 * 25.4],
    'roll-610': [610, 5000],
  };
  it.each(read('data/setups'))('$id is in the contract’s shape', ({ id, value }) => {
    const setup = printSetupSchema.strict().parse(value);
    expect(setup.id).toBe(id);
    expect([setup.paper.widthMm, setup.paper.heightMm]).toEqual(
      sizes[id]?.map((mm) => expect.closeTo(mm, 9)),
    );
    expect(setup.colourPathId).toBeNull();
    expect(setup.mirroredBy).toBe('sheet');
  });
});

describe('stock presses', () => {
  const stock = read('data/presses');
  it.each(stock)('$id is in the contract’s shape, and no brand’s', ({ id, value }) => {
    const press = pressSchema.strict().parse(value);
    expect(press).toMatchObject({ id, demo: false, note: expect.stringMatching(/^Generic/) });
    assertPressMakesSense(press);
  });

  // Common practice (from memory): a mug press draws 300 to 500 W, flat ones 1 to 3 kW, all from one socket of 16 A at 230 V.
  it.each(stock)('$id draws what one socket gives', ({ value }) => {
    const { kind, watts } = pressSchema.parse(value);
    const [least, most] = kind === 'mug' ? [300, 500] : [1000, 16 * 230];
    expect(watts).toBeGreaterThanOrEqual(least!);
    expect(watts).toBeLessThanOrEqual(most!);
  });

  it('holds a flat press, a mug press and an oven; a flat blank finds a platen', () => {
    const presses = stock.map(({ value }) => pressSchema.parse(value));
    expect(new Set(presses.map(({ kind }) => kind))).toEqual(new Set(['flat', 'mug', 'oven']));
    const flat = presses.filter(({ kind }) => kind === 'flat');
    for (const { value } of read('data/blanks')) {
      const { shape, id } = blankSchema.parse(value);
      if (shape.kind === 'cylinder') continue;
      const fits = flat.some(
        (press) => shape.widthMm <= press.platenWidthMm && shape.heightMm <= press.platenDepthMm,
      );
      const turned = flat.some(
        (press) => shape.heightMm <= press.platenWidthMm && shape.widthMm <= press.platenDepthMm,
      );
      expect([id, fits || turned]).toEqual([id, true]);
    }
  });
});

describe('stock blanks on stock paper', () => {
  const setups = read('data/setups').map(({ value }) => printSetupSchema.parse(value));
  const blanks = read('data/blanks').map(({ value }) => blankSchema.parse(value));
  const laid = (blank: (typeof blanks)[number], setup: (typeof setups)[number]) =>
    layOutSheet({
      sheetId: newSheetId(Uint8Array.from([0, 1, 2, 3, 4, 5])),
      paper: setup.paper,
      outline: developBlank(blank.shape),
      bleedMm: blank.bleedMm,
      artworkPixels: { widthPixels: 3000, heightPixels: 2000 },
      placement: { mode: 'fill', scale: 1, offsetXMm: 0, offsetYMm: 0, rotationDegrees: 0 },
      copies: 1,
      mirrorOnWriting: true,
    });

  it.each(blanks)('$id finds a sheet with all its marks', (blank) => {
    expect(setups.some((setup) => (laid(blank, setup).plan.frame?.markers.length ?? 0) === 4)).toBe(true);
  });

  // The sizes most desks have: what a small studio makes most must not need larger paper.
  it.each(['mug-straight-330ml', 'mug-straight-440ml', 'shirt-polyester-front', 'mouse-mat-230x190'])(
    '%s goes on A4 with all four corner marks',
    (id) => {
      const layout = laid(blanks.find((b) => b.id === id)!, setups.find((s) => s.id === 'desktop-a4')!);
      expect(layout.plan.frame?.markers.length).toBe(4);
    },
  );
});
