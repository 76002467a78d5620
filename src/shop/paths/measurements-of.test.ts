import { expect, test } from 'vitest';
import { measurementsOf } from './measurements-of.js';

const text = 'Name;R;G;B;L;a;b\nPale ochre · 1;0;128;255;50,5;-1;2\nWeiß°;255;0;0;40;5;6\n';

test.each([
  ['UTF-8', Buffer.from(text)],
  ['UTF-8 with a byte order mark', Buffer.from(`\uFEFF${text}`)],
  ['UTF-16, little end first', Buffer.from(`\uFEFF${text}`, 'utf16le')],
  ['UTF-16, big end first', Buffer.from(`\uFEFF${text}`, 'utf16le').swap16()],
  // Windows-1252 has these characters where Latin-1 has them.
  ['Windows-1252', Buffer.from(text, 'latin1')],
])('%s, as spreadsheets write it', (_, bytes) => {
  const table = measurementsOf(new Uint8Array(bytes));
  expect(table.sampleIds).toEqual(['Pale ochre · 1', 'Weiß°']);
  expect(table.device.rows[0]).toEqual([0, 128 / 255, 1]);
  expect(table.lab![0]![0]).toBeCloseTo(50.5, 9);
});

test('a file far too large is refused before it is looked at', () => {
  expect(() => measurementsOf(new Uint8Array(64_000_001))).toThrow(/larger than any table/);
});
