import fc from 'fast-check';
import { expect, test } from 'vitest';
import { displayFileName } from './index.js';

test.each([
  ['mug.png', 'mug.png'],
  ['/etc/passwd', 'passwd'],
  ['..\\..\\windows\\mug.png', 'mug.png'],
  ['../', 'artwork'],
  ['', 'artwork'],
  // U+202E turns the direction of text: 'mug<RLO>gnp.exe' would read 'mugexe.png'.
  ['mug\u202egnp.exe', 'muggnp.exe'],
  ['two\r\nlines\u0000.png', 'twolines.png'],
  ['Ruderclub Größe 3.png', 'Ruderclub Größe 3.png'],
  ['مجداف.png', 'مجداف.png'],
])('%j is shown as %j', (given, shown) => {
  expect(displayFileName(given)).toBe(shown);
});

test('whatever is given, what is shown is short, one line, and no path', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 400 }), (name) => {
      const shown = displayFileName(name);
      expect(shown).not.toMatch(/[\\/\p{Cc}]/u);
      expect([...shown].length).toBeLessThanOrEqual(120);
      expect(shown.length).toBeGreaterThan(0);
    }),
    { seed: 7, numRuns: 300 },
  );
});
