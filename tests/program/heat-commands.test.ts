/** `heat` and `recipe` as a person types them. */
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, expect, test, vi } from 'vitest';
import { newFolder } from '../shop/fixture.js';
import { runProgram } from './run.js';

vi.setConfig({ testTimeout: 240_000 });
const { folder, remove } = newFolder();
afterAll(remove);
const shopFolder = path.join(folder, 'shop');
const run = (...args: string[]) => runProgram(args, shopFolder);

test('heat draws a curve with words first, and answers in JSON', async () => {
  const words = await run('heat', '--blank', 'hardboard-coaster-95', '--seconds', '50');
  expect([words.code, words.err]).toEqual([0, '']);
  expect(words.out).toMatch(/^In 50 s the dye’s place|^The dye’s place reaches/);
  expect(words.out).toMatch(/●/);
  expect(words.out).toMatch(/maker’s instructions come first/);
  const json = await run('heat', 'examples/stack-tile.json', '--json');
  expect(json.code).toBe(0);
  expect(JSON.parse(json.out)).toMatchObject({
    energy: { closure: expect.any(Number) },
    dose: { referenceC: 200 },
  });
});

test('heat refuses what cannot be, with the exit code of bad input', async () => {
  const broken = path.join(folder, 'broken.json');
  writeFileSync(broken, '{"layers": [');
  for (const args of [
    ['heat'],
    ['heat', broken],
    ['heat', '--blank', 'hardboard-coaster-95', '--platen', '240'],
    ['heat', '--blank', 'hardboard-coaster-95', '--seconds', 'long'],
  ]) {
    const ended = await run(...args);
    expect([args, ended.code, ended.out]).toEqual([args, 2, '']);
  }
  expect((await run('heat', path.join(folder, 'none.json'))).code).toBe(3);
});

test('recipe: suggest, adopt, show, history', async () => {
  const blank = ['--blank', 'phone-case-insert-70x145'];
  const suggested = JSON.parse((await run('recipe', 'suggest', ...blank, '--json')).out);
  expect(suggested).toMatchObject({
    knownBlankId: expect.any(String),
    dwellSeconds: { value: expect.any(Number) },
  });
  const { knownBlankId, platenC } = suggested;
  const seconds = String(Math.round(suggested.dwellSeconds.value));
  const adopted = await run(
    ...[
      'recipe',
      'adopt',
      ...blank,
      '--like',
      knownBlankId,
      '--platen',
      String(platenC),
      '--seconds',
      seconds,
    ],
  );
  expect(adopted.out).toMatch(new RegExp(`^Version 2: ${platenC} °C, ${seconds} s`));
  const back = await run('recipe', 'adopt', ...blank, '--number', '1');
  expect(back.out).toMatch(/^Version 3: 200 °C, 60 s/);
  const history = JSON.parse((await run('recipe', 'history', ...blank, '--json')).out);
  expect(history.map((version: { ground: { kind: string } }) => version.ground.kind)).toEqual([
    'stock',
    'heat',
    'stock',
  ]);
  const shown = await run('recipe', 'show', ...blank);
  expect(shown.out).toMatch(/^200 °C, 60 s, medium pressure\nSet 200 °C/);
  expect((await run('recipe', 'adopt', ...blank)).code).toBe(2);
  expect((await run('recipe', 'show', '--blank', 'gone')).code).toBe(3);
});
