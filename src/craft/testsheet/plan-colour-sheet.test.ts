import { describe, expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import { newSheetId, type RectMm, readSheetCode, writeSheetCode } from '#craft/sheet';
import {
  type ColourSheetOrder,
  type ColourSheetRecipe,
  choosePatches,
  colourSheetId,
  colourSheetOfCode,
  colourSheetRecipe,
  mostPatches,
  patchSizes,
  planColourSheet,
} from './index.js';

const a4 = { widthMm: 210, heightMm: 297, marginMm: 3, mirrorOnWriting: true } as const;

function order(recipe: ColourSheetRecipe, paper: Partial<ColourSheetOrder> = {}): ColourSheetOrder {
  const { count, seed, material } = recipe;
  const patches = choosePatches(count, seed);
  return { ...a4, ...paper, sheetId: colourSheetId(recipe), material, seed, patches };
}

const problemOf = (make: () => unknown): string => {
  try {
    make();
  } catch (error) {
    if (isProblem(error)) return `${error.code}: ${error.message} ${error.remedy}`;
    throw error;
  }
  return 'none';
};

const overlap = (a: RectMm, b: RectMm): boolean =>
  a.xMm < b.xMm + b.widthMm - 1e-6 &&
  b.xMm < a.xMm + a.widthMm - 1e-6 &&
  a.yMm < b.yMm + b.heightMm - 1e-6 &&
  b.yMm < a.yMm + a.heightMm - 1e-6;

const sheets = [
  order({ count: 30, seed: 1, material: 'hard' }, { widthMm: 118, heightMm: 84 }),
  order({ count: 30, seed: 2, material: 'fabric' }),
  order({ count: 120, seed: 3, material: 'hard' }, { widthMm: 240, heightMm: 95, mirrorOnWriting: false }),
  order({ count: 300, seed: 4, material: 'fabric' }),
  order({ count: 900, seed: 5, material: 'hard' }),
];

describe('a colour test sheet', () => {
  it('bears every patch once, the controls, and nothing over anything else', () => {
    for (const sheet of sheets) {
      const { plan, layout } = planColourSheet(sheet);
      const chosen = layout.patches.flatMap((patch) => (patch.chosen === null ? [] : [patch.chosen]));
      expect(chosen.toSorted((a, b) => a - b)).toEqual(sheet.patches.map((_, i) => i));
      for (const patch of layout.patches) {
        if (patch.chosen !== null) {
          expect(patch.deviceRgb.map((v) => v / 255)).toEqual([...sheet.patches[patch.chosen]!.rgb]);
        }
      }
      const boxes = plan.marks.flatMap((mark) => (mark.kind === 'text' ? [] : [mark]));
      const printed = boxes.filter(({ role }) => role === 'patch' || role === 'registration');
      expect(printed.length).toBe(layout.patches.length + layout.registration.length);
      let clashes = 0;
      for (const [i, a] of printed.entries()) {
        if (a.rect.xMm < sheet.marginMm - 1e-6) clashes += 1;
        if (a.rect.xMm + a.rect.widthMm > sheet.widthMm - sheet.marginMm + 1e-6) clashes += 1;
        for (const b of printed.slice(i + 1)) if (overlap(a.rect, b.rect)) clashes += 1;
        for (const b of boxes) {
          if (b.role !== 'patch' && b.role !== 'registration' && overlap(a.rect, b.rect)) clashes += 1;
        }
      }
      expect(clashes).toBe(0);
    }
  });

  it('never makes a patch smaller than stated, and cloth’s are larger', () => {
    for (const sheet of sheets) {
      const { layout } = planColourSheet(sheet);
      const side = layout.pitchMm - layout.gapMm;
      expect(side).toBeGreaterThanOrEqual(patchSizes[sheet.material].leastPatchMm - 1e-9);
    }
    const recipe = { count: 200, seed: 9 } as const;
    const hard = planColourSheet(order({ ...recipe, material: 'hard' })).layout.pitchMm;
    const fabric = planColourSheet(order({ ...recipe, material: 'fabric' })).layout.pitchMm;
    expect(patchSizes.fabric.leastPatchMm).toBeGreaterThan(patchSizes.hard.leastPatchMm);
    // The same patches on the same paper: cloth's larger marks cost a little of each.
    expect(fabric).toBeGreaterThan(0.9 * hard);
  });

  it('says how many fit when they do not', () => {
    const small = { widthMm: 118, heightMm: 84 };
    const said = problemOf(() => planColourSheet(order({ count: 600, seed: 1, material: 'hard' }, small)));
    const most = Number(/at most (\d+) patches/.exec(said)?.[1]);
    expect(said).toMatch(/^sheet.impossible: 600 patches of at least 4 mm .* do not fit/);
    expect(planColourSheet(order({ count: most, seed: 1, material: 'hard' }, small)).layout).toBeTruthy();
    expect(
      problemOf(() => planColourSheet(order({ count: most + 5, seed: 1, material: 'hard' }, small))),
    ).toMatch(/^sheet.impossible/);
    expect(
      problemOf(() =>
        planColourSheet(order({ count: 30, seed: 1, material: 'hard' }, { widthMm: 30, heightMm: 20 })),
      ),
    ).toMatch(/no room for the marks/);
  });

  it('tells beforehand how many fit, exactly', () => {
    for (const paper of [
      { ...a4, material: 'hard' },
      { ...a4, material: 'fabric' },
      { ...a4, widthMm: 118, heightMm: 84, material: 'hard' },
      { ...a4, widthMm: 148, heightMm: 105, material: 'fabric' },
    ] as const) {
      const most = mostPatches(paper);
      expect(most).toBeGreaterThanOrEqual(30);
      expect(() =>
        planColourSheet(order({ count: most, seed: 3, material: paper.material }, paper)),
      ).not.toThrow();
      if (most < 900) {
        const one = order({ count: most + 1, seed: 3, material: paper.material }, paper);
        expect(problemOf(() => planColourSheet(one))).toContain(`at most ${most} patches`);
      }
    }
    expect(mostPatches({ widthMm: 60, heightMm: 60, marginMm: 3, material: 'fabric' })).toBe(0);
    expect(mostPatches({ widthMm: Number.NaN, heightMm: 60, marginMm: 3, material: 'hard' })).toBe(0);
  });

  it('for cloth has large marks where they leave room, the usual ones where not', () => {
    const variantOf = (count: number, paper: Partial<ColourSheetOrder>): string =>
      planColourSheet(order({ count, seed: 1, material: 'fabric' }, paper)).variant;
    expect(variantOf(150, {})).toBe('large-bands');
    expect(variantOf(80, { widthMm: 148, heightMm: 210 })).toBe('large-bands');
    const most = mostPatches({ ...a4, material: 'fabric' });
    expect(variantOf(most, {})).not.toMatch(/^large/);
    // A sheet made with the usual marks is still planned with them, by what its code says.
    const order150 = order({ count: 150, seed: 1, material: 'fabric' });
    const before = planColourSheet({ ...order150, variant: 'bands' });
    const text = writeSheetCode({ ...order150, variant: 'bands' });
    expect(colourSheetOfCode(readSheetCode(text)!)!.layout).toEqual(before.layout);
    expect(before.layout.frame.qr.widthMm).toBe(10);
  });

  it('repeats its controls over the whole sheet', () => {
    const { layout } = planColourSheet(sheets[4]!);
    const likes = new Map<string, { column: number; row: number }[]>();
    for (const patch of layout.patches.filter(({ chosen }) => chosen === null)) {
      const key = patch.deviceRgb.join();
      likes.set(key, [...(likes.get(key) ?? []), patch]);
    }
    expect([...likes.keys()]).toEqual(
      expect.arrayContaining(['128,128,128', '0,0,0', '255,255,255', '64,64,64', '192,192,192']),
    );
    // Every quarter of the sheet has one of each kind, so a field over the sheet can be told from colour.
    for (const places of likes.values()) {
      const quarters = new Set(
        places.map(({ column, row }) => `${column < layout.columns / 2} ${row < layout.rows / 2}`),
      );
      expect(quarters.size).toBe(4);
    }
  });

  it('lies shuffled by its seed alone', () => {
    const recipe = { count: 100, seed: 7, material: 'hard' } as const;
    const once = planColourSheet(order(recipe));
    expect(planColourSheet(order(recipe))).toEqual(once);
    const chosen = once.layout.patches.flatMap(({ chosen: c }) => (c === null ? [] : [c]));
    const inOrder = chosen.filter((c, i) => i > 0 && c === chosen[i - 1]! + 1).length;
    expect(inOrder).toBeLessThan(8);
    const other = planColourSheet({ ...order(recipe), seed: 8 });
    expect(other.layout.patches.map((p) => p.chosen)).not.toEqual(once.layout.patches.map((p) => p.chosen));
  });

  it('is known again from the code on it alone', () => {
    for (const sheet of sheets) {
      const planned = planColourSheet(sheet);
      const text = writeSheetCode({ ...sheet, variant: planned.variant });
      expect(colourSheetOfCode(readSheetCode(text)!)!.layout).toEqual(planned.layout);
    }
  });

  it('has an id that says what it is, and other sheets’ ids say nothing', () => {
    for (let i = 0; i < 12; i += 1) {
      const recipe = {
        count: 30 + 17 * i,
        seed: (i * 190_657) % 2 ** 21,
        material: i % 2 ? 'hard' : 'fabric',
      } as const;
      expect(colourSheetRecipe(colourSheetId(recipe))).toEqual(recipe);
    }
    let taken = 0;
    for (let i = 0; i < 40; i += 1) {
      const id = newSheetId(Uint8Array.from([i, 91 * i, 7, 255 - i, 13 * i, 200 - 3 * i]));
      if (colourSheetRecipe(id)) taken += 1;
    }
    expect(taken).toBeLessThanOrEqual(1);
    expect(colourSheetRecipe('not an id')).toBe(null);
    expect(problemOf(() => colourSheetId({ count: 29, seed: 1, material: 'hard' }))).toMatch(/30 to 900/);
    expect(problemOf(() => colourSheetId({ count: 30, seed: 2 ** 21, material: 'hard' }))).toMatch(/2097151/);
  });
});
