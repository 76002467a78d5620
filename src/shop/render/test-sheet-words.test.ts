import { describe, expect, it } from 'vitest';
import type { Mark, Rgb8, SheetPlan } from '#craft/sheet';
import { newSheetId } from '#craft/sheet';
import { choosePalette, planGreySheet, planPaletteSheet } from '#craft/testsheet';
import { outlineText } from './text/outline.js';

const sheetId = newSheetId(Uint8Array.of(2, 3, 5, 7, 11, 13));
const common = { sheetId, marginMm: 3, mirrorOnWriting: true };
const a4 = { ...common, widthMm: 210, heightMm: 297 };
const grey: Rgb8 = [128, 128, 128];
const awkward = ['MMMM WWWW @@ mm', 'Überführungsblau', 'a/b (wharf) 100 %', 'Ŵŵ ĤĤ', 'Ястреб'];

const texts = ({ marks }: SheetPlan): Extract<Mark, { kind: 'text' }>[] =>
  marks.flatMap((mark) => (mark.kind === 'text' && mark.role === 'label' ? [mark] : []));

/** The font as it is drawn (Source Sans 3 by fontkit) is the referee of what craft thinks words take. */
describe('words on test sheets', () => {
  it.each([
    ['a grey sheet', planGreySheet(a4).plan],
    ['a grey sheet lying', planGreySheet({ ...common, widthMm: 297, heightMm: 210 }).plan],
    [
      'a palette',
      planPaletteSheet({
        ...a4,
        swatches: choosePalette(() => true, 150).map(({ name }) => ({
          deviceRgb: grey,
          title: name,
          note: '#a1b2c3',
        })),
      }).plan,
    ],
    [
      'a palette of awkward names',
      planPaletteSheet({
        ...a4,
        swatches: Array.from({ length: 100 }, (_, i) => ({
          deviceRgb: grey,
          title: awkward[i % awkward.length]!,
          note: '#mmmmmm',
        })),
      }).plan,
    ],
  ])('of %s are drawn at their full size, 2.2 mm capitals at least', (_, plan) => {
    // The frame's own words are set as large as its band allows.
    const own = texts(plan)
      .slice(1)
      .filter(({ text }) => !text.startsWith('Sheet '));
    expect(own.length).toBeGreaterThan(100);
    for (const { text, capHeightMm, maxWidthMm } of own) {
      expect(capHeightMm).toBeGreaterThanOrEqual(2.2 - 1e-9);
      expect(outlineText(text).width * capHeightMm, text).toBeLessThanOrEqual(maxWidthMm + 0.02);
    }
  });
});
