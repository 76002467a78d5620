import { beforeAll, describe, expect, it } from 'vitest';
import {
  cornerMarkerCells,
  cornerMarkerIds,
  type Mark,
  newSheetId,
  planFrame,
  readSheetCode,
} from '#craft/sheet';
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
