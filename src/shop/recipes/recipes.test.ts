import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Recipe } from '#contract';
import { newFolder } from '../../../tests/shop/fixture.js';
import { ladderWith, recipeShop } from '../../../tests/shop/recipe-shop.js';

const { folder, remove } = newFolder();
let shop: Awaited<ReturnType<typeof recipeShop>>;
beforeAll(async () => {
  shop = await recipeShop(folder);
});
afterAll(async () => {
  await shop.database.close();
  remove();
});

const changeRecipe = async (id: string, change: Partial<Recipe>) => {
  const blank = await shop.blanks.get(id);
  return shop.blanks.save(id, { ...blank, recipe: { ...blank.recipe, ...change } });
};

describe('versions', () => {
  test('a stock recipe is version 1; each change is one more; a name is none', async () => {
    const id = 'aluminium-sheet-200x300';
    expect(await shop.recipes.versions(id)).toMatchObject([
      {
        number: 1,
        ground: { kind: 'stock', words: expect.stringMatching(/common practice/i) },
        pressId: null,
      },
    ]);
    const blank = await shop.blanks.get(id);
    await shop.blanks.save(id, { ...blank, name: 'Another name' });
    expect(await shop.recipes.versions(id)).toHaveLength(1);
    shop.tomorrow();
    await changeRecipe(id, { dwellSeconds: 80 });
    const [newest, first] = await shop.recipes.versions(id);
    expect(newest).toMatchObject({
      number: 2,
      recipe: { dwellSeconds: 80 },
      ground: { kind: 'typed', words: 'Changed by hand from 204 °C, 70 s, medium pressure.' },
    });
    expect(newest!.createdAt > first!.createdAt).toBe(true);
    await changeRecipe(id, { dwellSeconds: 75, basis: 'The leaflet of the maker.' });
    expect((await shop.recipes.versions(id))[0]!.ground.words).toBe('The leaflet of the maker.');
  });

  test('a new blank begins with what was typed', async () => {
    const like = await shop.blanks.get('hardboard-coaster-95');
    await shop.blanks.save('own', { ...like, id: 'own' });
    expect(await shop.recipes.versions('own')).toMatchObject([{ number: 1, ground: { kind: 'typed' } }]);
  });

  test('blank and version are kept together or not at all', async () => {
    const id = 'hardboard-coaster-95';
    await shop.recipes.versions(id);
    await sql`create trigger refuse before insert on recipeVersions begin select raise(abort, 'refused'); end`.execute(
      shop.database.db,
    );
    await expect(changeRecipe(id, { dwellSeconds: 99 })).rejects.toThrow('refused');
    await expect(
      shop.recipes.adopt(id, { from: 'heat', knownBlankId: 'own', platenC: 200, dwellSeconds: 99 }),
    ).rejects.toThrow('refused');
    await sql`drop trigger refuse`.execute(shop.database.db);
    expect((await shop.blanks.get(id)).recipe.dwellSeconds).toBe(60);
    expect(await shop.recipes.versions(id)).toHaveLength(1);
  });

  test('a change by a hand that keeps no history is found and kept', async () => {
    const id = 'mouse-mat-230x190';
    const blank = await shop.blanks.get(id);
    await shop.records.blanks.put({ ...blank, recipe: { ...blank.recipe, platenC: 198 } }, 'now');
    expect((await shop.recipes.versions(id)).map(({ recipe }) => recipe.platenC)).toEqual([198, 195]);
  });

  test('of a blank that is gone there are none', async () => {
    await expect(shop.recipes.versions('gone')).rejects.toMatchObject({ code: 'record.missing' });
  });
});

describe('adopting', () => {
  const id = 'tile-ceramic-108';

  test('a ladder’s middle becomes the recipe; its steps and pressure stay; what it rests on is told', async () => {
    const tile = await shop.blanks.get(id);
    await shop.records.ladders.put(ladderWith('LADDER1', tile, { platenC: 202, dwellSeconds: 214 }));
    const version = await shop.recipes.adopt(id, { from: 'ladder', ladderId: 'LADDER1' });
    expect(version).toMatchObject({
      number: 2,
      recipe: { platenC: 202, dwellSeconds: 214, pressure: tile.recipe.pressure, steps: tile.recipe.steps },
      ground: {
        kind: 'ladder',
        ladderId: 'LADDER1',
        words: 'A ladder of 5 coupons, 2026-03-03. It bears 8 s less and 14 s more.',
      },
    });
    expect((await shop.blanks.get(id)).recipe).toEqual(version.recipe);
    expect(version.recipe.basis).toMatch(/^Measured here: /);
    // Twice is once.
    expect(await shop.recipes.adopt(id, { from: 'ladder', ladderId: 'LADDER1' })).toEqual(version);
    expect(await shop.recipes.versions(id)).toHaveLength(2);
  });

  test('an earlier version comes back as a new one, and says which', async () => {
    const version = await shop.recipes.adopt(id, { from: 'version', number: 1 });
    expect(version).toMatchObject({
      number: 3,
      ground: { kind: 'stock', words: expect.stringMatching(/^Version 1 again\. /) },
    });
    expect(version.recipe).toEqual((await shop.recipes.versions(id)).at(-1)!.recipe);
  });

  test('from heat and typed', async () => {
    await shop.presses.save('swing', {
      id: 'swing',
      name: 'Swing press',
      kind: 'flat',
      platenWidthMm: 380,
      platenDepthMm: 380,
    });
    const carried = await shop.recipes.adopt(id, {
      from: 'heat',
      knownBlankId: 'slate-coaster-round-100',
      dwellSeconds: 231,
      platenC: 201.234,
      pressId: 'swing',
    });
    expect(carried).toMatchObject({
      recipe: { dwellSeconds: 231, platenC: 201.2 },
      ground: { kind: 'heat', knownBlankId: 'slate-coaster-round-100' },
      pressName: 'Swing press',
    });
    expect(carried.recipe.basis).toMatch(/^Carried over .* maker's instructions come first/);
    // A time that the model does not say is not given out as the model's.
    const own = await shop.recipes.adopt(id, {
      from: 'heat',
      knownBlankId: 'slate-coaster-round-100',
      dwellSeconds: 6,
      platenC: 201.234,
    });
    expect(own.ground.words).toMatch(/^A time of your own, .* the model of heat says \d+ to \d+ s/);
    const recipe = { ...carried.recipe, dwellSeconds: 240, basis: 'The leaflet.' };
    const typed = await shop.recipes.adopt(id, { from: 'typed', recipe, words: 'By the leaflet of March.' });
    expect(typed).toMatchObject({
      recipe,
      ground: { kind: 'typed', words: 'By the leaflet of March.' },
      pressId: null,
    });
  });

  test('what cannot be adopted is refused, and nothing changes', async () => {
    const slate = await shop.blanks.get('slate-coaster-round-100');
    await shop.records.ladders.put(ladderWith('LADDER2', slate, { platenC: 204, dwellSeconds: 330 }));
    await shop.records.ladders.put(ladderWith('LADDER3', await shop.blanks.get(id), null));
    await shop.records.ladders.put(
      ladderWith('LADDER4', await shop.blanks.get(id), { platenC: 240, dwellSeconds: 90 }),
    );
    const before = await shop.recipes.versions(id);
    for (const [request, code] of [
      [{ from: 'ladder', ladderId: 'LADDER2' }, 'request.invalid'],
      [{ from: 'ladder', ladderId: 'LADDER3' }, 'ladder.unusable'],
      [{ from: 'ladder', ladderId: 'LADDER4' }, 'press.invalid'],
      [{ from: 'ladder', ladderId: 'none' }, 'record.missing'],
      [{ from: 'ladder', ladderId: 'LADDER2', pressId: 'none' }, 'record.missing'],
      [{ from: 'version', number: 99 }, 'record.missing'],
      [{ from: 'heat', knownBlankId: id, platenC: 200, dwellSeconds: 60 }, 'request.invalid'],
      [{ from: 'heat', knownBlankId: 'gone', platenC: 200, dwellSeconds: 60 }, 'record.missing'],
      [{ from: 'heat', knownBlankId: 'own', platenC: 240, dwellSeconds: 60 }, 'request.invalid'],
      [{ from: 'typed', recipe: { platenC: 200 } }, 'request.invalid'],
      [{ from: 'hearsay' }, 'request.invalid'],
      ['200 °C', 'request.invalid'],
    ] as const) {
      await expect(shop.recipes.adopt(id, request), JSON.stringify(request)).rejects.toMatchObject({ code });
    }
    expect(await shop.recipes.versions(id)).toEqual(before);
  });
});

describe('on a press', () => {
  const id = 'phone-case-insert-70x145';

  test('never measured: the display is what there is, and that is said', async () => {
    const { onPress } = { onPress: await shop.recipes.onPress(id, 'swing') };
    expect(onPress).toMatchObject({ platenC: 200, setC: 200, offsetK: null, checkId: null });
    expect(onPress.words).toMatch(/nobody measured/);
    expect((await shop.recipes.onPress(id)).pressId).toBeNull();
  });

  test('set is true less the offset of the latest check', async () => {
    const cooler = (by: number) => ({
      setC: 200,
      method: 'probe' as const,
      columns: 3,
      rows: 3,
      celsius: Array.from({ length: 9 }, () => 200 - by),
    });
    await shop.presses.addCheck('swing', cooler(9));
    shop.tomorrow();
    const check = await shop.presses.addCheck('swing', cooler(4));
    const onPress = await shop.recipes.onPress(id, 'swing');
    expect(onPress).toMatchObject({ platenC: 200, setC: 204, checkId: check.id });
    expect(onPress.words).toMatch(/^Set 204 °C for 200 °C: “Swing press” is 4 °C .* cooler than it says\.$/);
    await expect(shop.recipes.onPress(id, 'gone')).rejects.toMatchObject({ code: 'record.missing' });
  });
});
