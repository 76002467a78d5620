import { describe, expect, it } from 'vitest';
import { readsBackwardsSentence, textMarks, wordsFor } from './mark-text.js';

const words = (box: Parameters<typeof wordsFor>[0], caption: string): string[] =>
  textMarks(box, wordsFor(box, '6818G18014', true, caption)).map((mark) =>
    mark.kind === 'text' ? mark.text : '',
  );

describe('words beside the marks', () => {
  it('are one line each where there is room, and lose nothing when wrapped', () => {
    const roomy = { xMm: 20, yMm: 3, widthMm: 400, heightMm: 20 };
    expect(words(roomy, 'Tile')).toEqual([
      readsBackwardsSentence(true),
      'Sheet 6818G 18014 · print at 100 % · Tile',
    ]);
    const narrow = { xMm: 20, yMm: 3, widthMm: 60, heightMm: 10 };
    const spoken = (box: typeof roomy): string => words(box, 'Tile').join(' ').replaceAll(' ·', '');
    expect(spoken(narrow)).toBe(spoken(roomy));
  });

  it('end no line on the point between two statements', () => {
    for (let widthMm = 40; widthMm < 140; widthMm += 7) {
      const lines = words(
        { xMm: 20, yMm: 3, widthMm, heightMm: 20 },
        'Colour test sheet, 150 patches for fabric',
      );
      expect(lines.length).toBeGreaterThan(1);
      for (const line of lines) expect(line).not.toMatch(/^·|·$/);
    }
  });

  it('stand in a column of short lines in an upright band, the sheet’s id among them', () => {
    const upright = { xMm: 3, yMm: 25, widthMm: 10, heightMm: 120 };
    const lines = words(upright, 'evening-on-the-marsh.png');
    expect(lines.join(' ')).toContain('Sheet 6818G 18014');
    expect(lines.join(' ')).toContain('turn mirroring off in the driver');
  });

  it('drop the caption before the warning', () => {
    const tight = { xMm: 20, yMm: 3, widthMm: 66, heightMm: 3.9 };
    const lines = words(
      tight,
      'A caption that is far too long to stand beside the marks of so small a sheet',
    );
    expect(lines.join(' ')).toBe(readsBackwardsSentence(true));
  });

  it('cut captions that go on', () => {
    const roomy = { xMm: 20, yMm: 3, widthMm: 400, heightMm: 20 };
    expect(words(roomy, 'long '.repeat(60)).join(' ').length).toBeLessThan(220);
  });
});
