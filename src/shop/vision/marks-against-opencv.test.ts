import { beforeAll, describe, expect, it } from 'vitest';
import {
  cornerMarkerCells,
  cornerMarkerIds,
  type Mark,
  newSheetId,
  planFrame,
  readSheetCode,
} from '#craft/sheet';
import { cornerPatterns, dictionaryRow } from './corner-dictionary.js';
import { findMarkers } from './find-markers.js';
import { loadOpenCv, type OpenCv } from './open-cv.js';

let cv: OpenCv;
beforeAll(async () => {
  ({ cv } = await loadOpenCv());
});

const ids = Object.values(cornerMarkerIds);

/** What OpenCV 4.12 draws for DICT_4X4_50, true = black. */
function opencvCells(id: number): boolean[] {
  const dictionary = cv.getPredefinedDictionary(cv.DICT_4X4_50);
  const mat = new cv.Mat();
  dictionary.generateImageMarker(id, 6, mat, 1);
  const cells = Array.from(mat.data, (value) => value < 128);
  mat.delete();
  dictionary.delete();
  return cells;
}

describe('marks, against OpenCV', () => {
  it('corner markers are those of DICT_4X4_50', () => {
    for (const id of ids) expect(cornerMarkerCells(id)).toEqual(opencvCells(id));
  });

  it('the dictionary looked for has OpenCV’s own bytes, and for the mirrored ones those of a mirrored drawing', () => {
    const predefined = cv.getPredefinedDictionary(cv.DICT_4X4_50);
    for (const pattern of cornerPatterns) {
      const row = dictionaryRow(pattern);
      const own = Array.from(predefined.bytesList.data.subarray(8 * pattern.id, 8 * pattern.id + 8));
      if (pattern.mirrored) expect(row).not.toEqual(own);
      else expect(row).toEqual(own);
      // The first two bytes are the cells in rows, so a drawing made from them must be the marker's own or its mirror image.
      const bits = ((row[0]! << 8) | row[1]!).toString(2).padStart(16, '0');
      const cells = opencvCells(pattern.id);
      const seen = [...bits].map((_, i) => {
        const column = pattern.mirrored ? 3 - (i % 4) : i % 4;
        return cells[6 * (1 + Math.floor(i / 4)) + 1 + column] ? '0' : '1';
      });
      expect(bits).toBe(seen.join(''));
    }
  });

  it('finds all four corners as they read and in a mirror, in the marker’s own order', () => {
    for (const mirrored of [false, true]) {
      const data = new Uint8Array(400 * 120).fill(255);
      ids.forEach((id, k) => {
        opencvCells(id).forEach((dark, i) => {
          if (!dark) return;
          const [column, row] = [i % 6, Math.floor(i / 6)];
          for (let p = 0; p < 100; p += 1) {
            const x = 20 + 90 * k + 10 * column + (p % 10);
            data[(30 + 10 * row + Math.floor(p / 10)) * 400 + (mirrored ? 399 - x : x)] = 0;
          }
        });
      });
      const seen = findMarkers(cv, { width: 400, height: 120, data }, 'quick');
      expect(seen[mirrored ? 'plain' : 'mirrored']).toEqual([]);
      const found = seen[mirrored ? 'mirrored' : 'plain'];
      expect(found.map(({ id }) => id).sort((a, b) => a - b)).toEqual([...ids].sort((a, b) => a - b));
      for (const { id, corners } of found) {
        const left = 20 + 90 * ids.indexOf(id as never);
        const wanted = [
          [left, 30],
          [left + 60, 30],
          [left + 60, 90],
          [left, 90],
        ];
        corners.forEach(({ x, y }, i) => {
          expect(Math.abs((mirrored ? 400 - x : x) - wanted[i]![0]!)).toBeLessThan(1);
          expect(Math.abs(y - wanted[i]![1]!)).toBeLessThan(1);
        });
      }
    }
  });

  it('corner markers differ in six cells from every turned or mirrored form of themselves and of the others', () => {
    const turned = (cells: boolean[]): boolean[] =>
      cells.map((_, i) => cells[(5 - (i % 6)) * 6 + Math.floor(i / 6)]!);
    const mirrored = (cells: boolean[]): boolean[] =>
      cells.map((_, i) => cells[Math.floor(i / 6) * 6 + 5 - (i % 6)]!);
    let least = 36;
    for (const a of ids) {
      for (const b of ids) {
        let form = opencvCells(b);
        for (let turn = 0; turn < 4; turn += 1) {
          for (const seen of [form, mirrored(form)]) {
            if (a === b && turn === 0 && seen === form) continue;
            least = Math.min(least, cornerMarkerCells(a).filter((cell, i) => cell !== seen[i]).length);
          }
          form = turned(form);
        }
      }
    }
    expect(least).toBe(6);
  });

  it('the code is read by OpenCV’s own finder and says what the sheet is', () => {
    for (let seed = 0; seed < 40; seed += 1) {
      const sheetId = newSheetId(Uint8Array.from([seed, 7 * seed, 31, 250 - seed, seed, 3 * seed]));
      const mirrorOnWriting = seed % 2 === 0;
      const planned = planFrame({ sheetId, widthMm: 210, heightMm: 297, marginMm: 3, mirrorOnWriting });
      if (!planned.frame) throw new Error('no room');
      const mark = planned.marks.find(({ role }) => role === 'identity');
      if (mark?.kind !== 'cells') throw new Error('no code');
      expect(readSheetCode(decoded(mark))).toEqual({
        sheetId,
        mirrorOnWriting,
        variant: 'bands',
        widthMm: 210,
        heightMm: 297,
        marginMm: 3,
      });
    }
  });
});

function decoded({ cells, columns }: Extract<Mark, { kind: 'cells' }>): string {
  const side = (columns + 8) * 6;
  const mat = new cv.Mat(side, side, cv.CV_8UC1);
  for (let i = 0; i < side * side; i += 1) {
    const column = Math.floor((i % side) / 6) - 4;
    const row = Math.floor(i / side / 6) - 4;
    const inside = column >= 0 && row >= 0 && column < columns && row < columns;
    mat.data[i] = inside && cells[row * columns + column] ? 0 : 255;
  }
  const points = new cv.Mat();
  const detector = new cv.QRCodeDetector();
  const text = detector.detectAndDecode(mat, points);
  for (const one of [mat, points, detector]) one.delete();
  return text;
}
