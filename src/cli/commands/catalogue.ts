import { Command } from 'commander';
import { table } from '../say.js';
import { globals, readNamedJson, withShop } from './common.js';

interface Kept {
  readonly id: string;
  readonly name: string;
}

interface Group<T extends Kept> {
  list(): Promise<T[]>;
  get(id: string): Promise<T>;
  save(id: string, value: unknown): Promise<T>;
  remove(id: string): Promise<void>;
}

/** `blanks`, `setups` and `presses` work alike: data kept under an id, written and read as JSON. */
export function catalogueCommand<T extends Kept>(
  name: string,
  what: string,
  groupOf: (shop: Parameters<Parameters<typeof withShop>[1]>[0]) => Group<T>,
  headings: readonly string[],
  row: (kept: T) => readonly string[],
): Command {
  const group = new Command(name).description(`${what}: list, show, import, remove`);
  group
    .command('list', { isDefault: true })
    .description(`all ${name}`)
    .action(async (_options, command: Command) => {
      const { say, folder } = globals(command);
      const all = await withShop(folder, (shop) => groupOf(shop).list());
      say.answer(all, () => table(headings, all.map(row)));
    });
  group
    .command('show <id>')
    .description('one, as JSON that `import` takes back')
    .action(async (id: string, _options, command: Command) => {
      const { say, folder } = globals(command);
      const one = await withShop(folder, (shop) => groupOf(shop).get(id));
      say.answer(one, () => JSON.stringify(one, null, 2));
    });
  group
    .command('import <file>')
    .description('add or replace from a JSON file')
    .action(async (file: string, _options, command: Command) => {
      const { say, folder } = globals(command);
      const value = await readNamedJson(file);
      const id = typeof value === 'object' && value !== null && 'id' in value ? String(value.id) : '';
      const kept = await withShop(folder, (shop) => groupOf(shop).save(id, value));
      say.answer(kept, () => `Kept “${kept.name}” as ${kept.id}.`);
    });
  group
    .command('remove <id>')
    .description('forget one that nothing uses')
    .action(async (id: string, _options, command: Command) => {
      const { say, folder } = globals(command);
      await withShop(folder, (shop) => groupOf(shop).remove(id));
      say.answer({ removed: id }, () => `Removed ${id}.`);
    });
  return group;
}

const size = (shape: { kind: string; widthMm?: number; heightMm?: number; diameterMm?: number }): string =>
  shape.kind === 'cylinder'
    ? `⌀ ${shape.diameterMm} × ${shape.heightMm} mm`
    : `${shape.widthMm} × ${shape.heightMm} mm`;

export const blanksCommand = (): Command =>
  catalogueCommand(
    'blanks',
    'what is pressed',
    (shop) => shop.blanks,
    ['id', 'name', 'size', 'recipe'],
    (blank) => [
      blank.id,
      blank.name,
      size(blank.shape),
      `${blank.recipe.platenC} °C, ${blank.recipe.dwellSeconds} s, ${blank.recipe.pressure}`,
    ],
  );

export const setupsCommand = (): Command =>
  catalogueCommand(
    'setups',
    'printer, ink and paper',
    (shop) => shop.setups,
    ['id', 'name', 'paper', 'mirrored by', 'colour path'],
    (setup) => [
      setup.id,
      setup.name,
      setup.paper.roll
        ? `roll, ${setup.paper.widthMm} mm wide`
        : `${setup.paper.widthMm} × ${setup.paper.heightMm} mm`,
      setup.mirroredBy === 'sheet' ? 'the sheet' : 'the driver',
      setup.colourPathId ?? 'none: not calibrated',
    ],
  );
