import path from 'node:path';
import { afterAll, expect, test, vi } from 'vitest';
import { platenCheckSchema } from '#contract';
import { newFolder } from '../shop/fixture.js';
import { runProgram } from './run.js';

// Each command is a process of its own, and the machine may be busy.
vi.setConfig({ testTimeout: 120_000 });

const { folder, remove } = newFolder();
afterAll(remove);
const run = (...args: string[]) => runProgram(args, path.join(folder, 'shop'));

test('temperatures of a platen are typed in, told and listed; what is wrong is said', async () => {
  const never = await run('presses', 'check', 'flat-380-380');
  expect([never.code, never.out]).toEqual([0, expect.stringContaining('Never measured')]);
  const temperatures = ['196', '197', '196', '195', '-', '196', '194', '195,5', '195'];
  const kept = await run(
    ...['presses', 'check', 'flat-380-380', ...temperatures, '--set', '200', '--grid', '3x3', '--json'],
  );
  expect([kept.code, kept.err]).toEqual([0, '']);
  const check = platenCheckSchema.parse(JSON.parse(kept.out));
  expect(check.celsius).toEqual([196, 197, 196, 195, null, 196, 194, 195.5, 195]);
  // The mean of the eight is 195.6.
  expect(Math.abs(check.offsetK.value + 4.4)).toBeLessThan(1);
  const listed = await run('presses', 'check', 'flat-380-380');
  expect(listed.out).toContain('200 °C');
  const refused = [
    await run('presses', 'check', 'flat-380-380', '196'),
    await run('presses', 'check', 'flat-380-380', 'hot', '--set', '200'),
    await run('presses', 'check', 'flat-380-380', '196', '--set', '200', '--grid', '3x3'),
  ];
  for (const { code, err } of refused) expect([code, err]).toEqual([2, expect.stringMatching(/\.\n/)]);
  expect((await run('presses', 'check', 'gone', '196', '--set', '200')).code).toBe(3);
});
