import qrcode from 'qrcode-generator';
import { describe, expect, it } from 'vitest';
import { codeTemplate, readCodeGrid } from './code-grid.js';
import type { GreyPicture } from './refine-square.js';

function cellsOf(text: string): boolean[] {
  const code = qrcode(2, 'M');
  code.addData(text, 'Alphanumeric');
  code.make();
  return Array.from({ length: 625 }, (_, i) => code.isDark(Math.floor(i / 25), i % 25));
}

describe('the code’s modules', () => {
  const texts = Array.from({ length: 60 }, (_, i) => `DYEWRIGHT:1:${(i * 7919).toString(36).toUpperCase()}`);

  it('the template names just the modules that are alike in every code a general library makes', () => {
    const codes = texts.map(cellsOf);
    codeTemplate.forEach((known, i) => {
      const darks = codes.filter((cells) => cells[i]).length;
      if (known === 1) expect(darks).toBe(codes.length);
      if (known === -1) expect(darks).toBe(0);
    });
    // 25² modules less 359 for data and 7 over (ISO/IEC 18004, table 1), less 15 × 2 of format information.
    expect(codeTemplate.filter((known) => known !== 0)).toHaveLength(625 - 359 - 30);
  });

  it('are read from a coarse, shifted, blurred picture', () => {
    const cells = cellsOf(texts[7]!);
    const side = 2.3;
    const at = (x: number, y: number): number => {
      const [column, row] = [Math.floor((x - 11.3) / side), Math.floor((y - 9.6) / side)];
      const inside = column >= 0 && row >= 0 && column < 25 && row < 25;
      return inside && cells[row * 25 + column] ? 60 : 210;
    };
    const width = 84;
    const data = new Uint8Array(width * width);
    for (let y = 0; y < width; y += 1) {
      for (let x = 0; x < width; x += 1) {
        let sum = 0;
        // A box two pixels wide: blur nearly as wide as a module.
        for (let k = 0; k < 100; k += 1)
          sum += at(x - 0.5 + (k % 10) / 5 + 0.1, y - 0.5 + Math.floor(k / 10) / 5 + 0.1);
        data[y * width + x] = sum / 100;
      }
    }
    const picture: GreyPicture = { width, height: width, data };
    const guess = [
      { x: 13, y: 8.5 },
      { x: 70, y: 11 },
      { x: 67, y: 68 },
      { x: 10, y: 65 },
    ];
    expect(readCodeGrid(picture, guess)[0]).toEqual(cells);
  });

  it('are not seen where there is no code', () => {
    const data = Uint8Array.from({ length: 80 * 80 }, (_, i) => (i * 2654435761) >>> 24);
    const square = [
      { x: 10, y: 10 },
      { x: 70, y: 10 },
      { x: 70, y: 70 },
      { x: 10, y: 70 },
    ];
    expect(readCodeGrid({ width: 80, height: 80, data }, square)).toEqual([]);
  });
});
