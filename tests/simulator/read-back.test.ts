import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import type { SheetReading } from '#craft/reading';
import { closeVision, readSheetPicture } from '#shop/vision';
import {
  printed,
  type Route,
  randomCase,
  type Truth,
  truthOf,
  type WrittenSheet,
  writeSheet,
} from './cases.js';
import { scan, toFile } from './index.js';

/** More cases by `READ_BACK_CASES=600 READ_BACK_FIRST=101 npx vitest run tests/simulator`. */
const cases = Number(process.env.READ_BACK_CASES ?? 16);
const firstSeed = Number(process.env.READ_BACK_FIRST ?? 1);

let sheets: WrittenSheet[];
beforeAll(async () => {
  const small = { widthMm: 118, heightMm: 84, ppi: 254 };
  sheets = [
    await writeSheet(1, { ...small, mirror: true }),
    await writeSheet(2, { ...small, mirror: false }),
    await writeSheet(3, { widthMm: 84, heightMm: 118, ppi: 254, mirror: true, variant: 'sides' }),
    await writeSheet(4, { ...small, mirror: false, variant: 'slim-bands' }),
    await writeSheet(5, { ...small, mirror: true, variant: 'top-only' }),
    await writeSheet(6, { widthMm: 84, heightMm: 118, ppi: 254, mirror: false, variant: 'left-only' }),
  ];
});
afterAll(closeVision);

const plain: Route = { driverMirrors: false, scaleAcross: 1, scaleAlong: 1, subject: 'paper', shrink: 1 };

/** Nothing that is said may be wrong; what is left open is no error here. */
function wrongIn(reading: SheetReading, truth: Truth): string[] {
  const wrong: string[] = [];
  if (reading.sheetId !== null && reading.sheetId !== truth.sheetId) wrong.push('sheet id');
  if (reading.fileMirrored !== null && reading.fileMirrored !== truth.fileMirrored)
    wrong.push('file mirrored');
  if (reading.seenMirrored !== truth.seenMirrored) wrong.push('handedness');
  if (reading.mirroring !== 'unknown' && reading.mirroring !== truth.mirroring) wrong.push('mirroring');
  const measured = reading.scalePercent;
  if (measured) {
    if (!truth.scale) wrong.push('scale of a photo');
    else if (Math.abs(measured.across - truth.scale.across) > measured.uncertainty)
      wrong.push('scale across');
    else if (Math.abs(measured.along - truth.scale.along) > measured.uncertainty) wrong.push('scale along');
  }
  return wrong;
}

describe('a sheet read back', () => {
  it('tells all verdicts on paper and piece, however it lies on the glass', async () => {
    let turn = 0;
    for (const subject of ['paper', 'piece'] as const) {
      for (const sheet of sheets.slice(0, 2)) {
        for (const driverMirrors of [false, true]) {
          const route: Route = { ...plain, subject, driverMirrors };
          const paper = printed(sheet, route);
          // Two lies each, so that over the eight routes every quarter turn comes four times.
          for (let lie = 0; lie < 2; lie += 1) {
            const seed = 100 + turn;
            const seen = scan(paper, { ppi: 150, turnDegrees: 90 * (turn % 4) + 1, seed, dust: 10 });
            turn += 1;
            const reading = await readSheetPicture(await toFile(seen, { format: 'png', ppi: 150 }), {
              subject,
            });
            const truth = truthOf(sheet, route, true);
            expect(wrongIn(reading, truth)).toEqual([]);
            expect(reading).toMatchObject({
              sheetId: truth.sheetId,
              fileMirrored: truth.fileMirrored,
              mirroring: truth.mirroring,
              scale: 'right',
              markersFound: 4,
            });
          }
          turn += 1;
        }
      }
    }
  });

  it('measures a driver’s 97 % within a tenth, and stretching', async () => {
    for (const [across, along, verdict] of [
      [0.97, 0.97, 'wrong'],
      [0.97, 1, 'stretched'],
      [1, 1, 'right'],
    ] as const) {
      const paper = printed(sheets[0]!, { ...plain, scaleAcross: across, scaleAlong: along });
      const seen = scan(paper, { ppi: 300, turnDegrees: 2, seed: 5, dust: 15 });
      const reading = await readSheetPicture(await toFile(seen, { format: 'tiff', ppi: 300 }), {
        subject: 'paper',
      });
      expect(reading.scale).toBe(verdict);
      expect(Math.abs(reading.scalePercent!.across - 100 * across)).toBeLessThanOrEqual(0.1);
      expect(Math.abs(reading.scalePercent!.along - 100 * along)).toBeLessThanOrEqual(0.1);
      expect(reading.sentences.join(' ')).toMatch(verdict === 'right' ? /at its size/ : /Print at 100 %/);
    }
  });

  it(`says nothing wrong in ${cases} seeded scans and photographs`, async () => {
    const counts = { scan: { all: 0, read: 0, named: 0 }, photo: { all: 0, read: 0, named: 0 } };
    const wrong: string[] = [];
    for (let seed = firstSeed; seed < firstSeed + cases; seed += 1) {
      const { name, file, subject, truth } = await randomCase(sheets, seed);
      const count = truth.scale ? counts.scan : counts.photo;
      count.all += 1;
      try {
        const reading = await readSheetPicture(file, { subject });
        count.read += 1;
        if (reading.sheetId !== null) count.named += 1;
        const faults = wrongIn(reading, truth);
        if (faults.length > 0)
          wrong.push(
            `${name}: ${faults.join(', ')} ${JSON.stringify(reading.scalePercent)} ${JSON.stringify(truth.scale)}`,
          );
        else if (process.env.READ_BACK_CASES && reading.sheetId === null) console.info(`${name}: no id`);
      } catch (error) {
        if (!isProblem(error) || error.code !== 'scan.no-marks') throw error;
        if (process.env.READ_BACK_CASES) console.info(`${name}: ${error.message}`);
      }
    }
    console.info('read back', JSON.stringify(counts));
    expect(wrong).toEqual([]);
    expect(counts.scan.named).toBeGreaterThanOrEqual(Math.floor(0.97 * counts.scan.all));
    expect(counts.photo.named).toBeGreaterThanOrEqual(Math.floor(0.85 * counts.photo.all));
  }, 3_600_000);
});
