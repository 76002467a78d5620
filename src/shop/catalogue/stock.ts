import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { type Blank, blankSchema, pressSchema, printSetupSchema } from '#contract';
import type { Records } from '#shop/store';
import { checked } from '#shop/validate';
import { addRecipeVersion, sameRecipe, stockGround, typedGround } from './recipe-versions.js';

const dataFolder = path.resolve(import.meta.dirname, '../../../data');

/**
 * Offers the stock blanks, print setups and presses to the shop. Each is offered once in a shop's life: one that was
 * removed stays away, one that was changed stays as changed, and new stock of a newer program comes in.
 */
export async function offerStock(records: Records, now: () => Date, folder = dataFolder): Promise<void> {
  const blanks = (await readJsonFiles(path.join(folder, 'blanks'))).map((value) =>
    checked(blankSchema, value, 'A stock blank is wrong'),
  );
  const setups = (await readJsonFiles(path.join(folder, 'setups'))).map((value) =>
    checked(printSetupSchema, value, 'A stock print setup is wrong'),
  );
  const presses = (await readJsonFiles(path.join(folder, 'presses'))).map((value) =>
    checked(pressSchema, value, 'A stock press is wrong'),
  );
  const time = now().toISOString();
  await records.together(async (inside) => {
    for (const blank of blanks) {
      if (await inside.stock.wasOffered('blank', blank.id)) continue;
      if ((await inside.blanks.get(blank.id)) === undefined) await inside.blanks.put(blank, time);
      await inside.stock.offered('blank', blank.id);
    }
    await keepFirstVersions(inside, blanks, time);
    for (const setup of setups) {
      if (await inside.stock.wasOffered('setup', setup.id)) continue;
      if ((await inside.setups.get(setup.id)) === undefined) await inside.setups.put(setup, time);
      await inside.stock.offered('setup', setup.id);
    }
    for (const press of presses) {
      if (await inside.stock.wasOffered('press', press.id)) continue;
      if ((await inside.presses.get(press.id)) === undefined) await inside.presses.put(press, time);
      await inside.stock.offered('press', press.id);
    }
  });
}

/** Blanks without a version of their recipe (new ones, and those of a shop from before versions) get their first. */
async function keepFirstVersions(records: Records, stock: readonly Blank[], at: string): Promise<void> {
  for (const blank of await records.blanks.list()) {
    if ((await records.recipeVersions.latest(blank.id)) !== undefined) continue;
    const asOffered = stock.find(({ id }) => id === blank.id)?.recipe;
    const ground =
      asOffered !== undefined && sameRecipe(asOffered, blank.recipe)
        ? stockGround(blank.recipe)
        : typedGround(blank.recipe, asOffered ?? null);
    await addRecipeVersion(records, blank, { ground, at });
  }
}

/** Every *.json of the folder; a file holds one record or a list of them. */
async function readJsonFiles(folder: string): Promise<unknown[]> {
  const names = (await readdir(folder).catch(() => [])).filter((name) => name.endsWith('.json')).sort();
  const values = await Promise.all(
    names.map(async (name) => JSON.parse(await readFile(path.join(folder, name), 'utf8')) as unknown),
  );
  return values.flat();
}
