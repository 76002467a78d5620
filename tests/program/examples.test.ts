/** The commands of examples/README.md, run as they stand there. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, expect, test, vi } from 'vitest';
import { readMeasurements } from '#craft/cgats';
import { deltaE00, type Triple } from '#craft/colour';
import { newFolder } from '../shop/fixture.js';
import { runProgram } from './run.js';

// Each command is a process of its own, and the machine may be busy.
vi.setConfig({ testTimeout: 240_000 });
const { folder, remove } = newFolder();
afterAll(remove);
const root = path.resolve(import.meta.dirname, '../..');
const commands = readFileSync(path.join(root, 'examples/README.md'), 'utf8')
  .split('\n')
  .filter((line) => line.startsWith('dyewright '))
  .map((line) => [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!).slice(1));

const instrument = readMeasurements(
  readFileSync(path.join(root, 'examples/colour-sheet-instrument.txt'), 'utf8'),
);
/** Mean difference between patches read and the instrument's, which has noise of 0.2 ΔE. */
function differs(patches: readonly { deviceRgb: number[]; lab: Triple; sound: boolean }[]): number {
  const values = patches
    .filter(({ sound }) => sound)
    .map(({ deviceRgb, lab }) => {
      const rows = instrument.device.rows.flatMap((row, i) =>
        row.every((v, k) => Math.round(255 * v) === deviceRgb[k]) ? [instrument.lab![i]!] : [],
      );
      const mean = [0, 1, 2].map((k) => rows.reduce((sum, row) => sum + row[k]!, 0) / rows.length);
      return deltaE00(lab, mean as unknown as Triple);
    });
  return values.reduce((sum, v) => sum + v, 0) / values.length;
}

test('each command does what is said, and each grade is as near the instrument as it claims', async () => {
  expect(commands.length).toBeGreaterThanOrEqual(8);
  const off: Record<string, number> = {};
  let readingId = '';
  for (const words of commands) {
    const args = words.map((word) =>
      word === 'READING' ? readingId : word.endsWith('.pdf') ? path.join(folder, word) : word,
    );
    const ended = await runProgram([...args, '--json'], path.join(folder, 'shop'));
    expect([ended.code, args, ended.err]).toEqual([0, args, expect.any(String)]);
    const answer = JSON.parse(ended.out);
    if (args[0] === 'read') {
      const { reading, patches } = answer;
      expect(reading).toMatchObject({ subject: 'piece', patchCount: 150, soundCount: 150 });
      readingId = reading.id ?? readingId;
      off[reading.grade] = differs(patches);
      expect(off[reading.grade]).toBeLessThan(reading.expectedError.meanDeltaE00 + 0.3);
    }
    if (args[0] === 'heat') expect(answer.energy.closure).toBeLessThan(1e-6);
    if (args[0] === 'ladder' && args[1] === 'read') {
      expect(answer.pictures[0].coupons).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
      expect(answer.window.windowProbability).toBeGreaterThan(0.9);
    }
    if (args[0] === 'evenness' && args[1] === 'read') {
      const kinds = answer.findings.map(({ kind }: { kind: string }) => kind);
      expect(kinds.sort()).toEqual(['spot', 'tilt']);
    }
    if (args[0] === 'path') expect(answer.measurement).toMatchObject({ grade: 'A' });
  }
  console.info(off);
  expect(Object.keys(off).sort()).toEqual(['B', 'C', 'D']);
  expect(off.B).toBeLessThan(off.C!);
  expect(off.C).toBeLessThan(off.D!);
});
