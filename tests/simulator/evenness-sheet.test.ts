import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { EvennessReading } from '#craft/patchreading';
import { isProblem } from '#craft/problem';
import { newSheetId } from '#craft/sheet';
import { type EvennessSheetOrder, planEvennessSheet } from '#craft/testsheet';
import { closeVision, readEvennessPicture } from '#shop/vision';
import { fieldOf, unevenly, vignetted } from './chart.js';
import { ink, type Picture, press, scan, toFile } from './index.js';
import { writeMarks } from './write-marks.js';

afterAll(closeVision);

const ppi = 200;
const order: EvennessSheetOrder = {
  sheetId: newSheetId(Uint8Array.of(4, 4, 4, 1, 2, 3)),
  widthMm: 180,
  heightMm: 130,
  marginMm: 3,
  material: 'hard',
  mirrorOnWriting: true,
};
let piece: Picture;
beforeAll(async () => {
  const { plan } = planEvennessSheet(order);
  piece = press(ink(await writeMarks(plan as never, plan.widthMm, plan.heightMm, ppi, { mirror: true })));
});

/** The scanner's lamp is brighter in the middle: `loss` of its light is gone at the rim. */
async function read(pressed: Picture, loss: number, turnDegrees = 1): Promise<EvennessReading> {
  const seen = vignetted(scan(pressed, { ppi, turnDegrees, dust: 10, seed: 3 }), loss);
  return readEvennessPicture(await toFile(seen, { format: 'png', ppi }), order);
}
/** Density of the green channel beside the ground. */
const density = (reading: EvennessReading) =>
  reading.cells.map(({ rgb, at }) => ({ at, d: -Math.log10(rgb[1] / reading.groundRgb[1]) }));
const spreadOf = (values: readonly number[]): number => {
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  return Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length) / mean;
};

describe('an evenness sheet', () => {
  it('pressed evenly stays even, however unevenly the scanner lights it', async () => {
    const reading = await read(piece, 0.12);
    expect(reading.surface).toBe('piece');
    expect(reading.outside).toBe(0);
    expect(reading.cells.length).toBeGreaterThan(300);
    expect(reading.lightRatio).toBeGreaterThan(1.08);
    const values = density(reading).map(({ d }) => d);
    expect(spreadOf(values)).toBeLessThan(0.01);
    const truth = fieldOf([128, 128, 128], 'piece');
    const mean = values.reduce((sum, d) => sum + d, 0) / values.length;
    expect(mean).toBeCloseTo(-Math.log10(truth[1] / 0.92), 2);
    // Without the ground beside the cells the lamp would have been a fault of the platen's.
    expect(Math.max(...values) - Math.min(...values)).toBeLessThan(0.02);
  });

  it('pressed unevenly shows where and by how much, under an uneven lamp too, any way round', async () => {
    const tilt = (u: number, v: number): number =>
      1 - 0.12 * u - 0.15 * Math.exp(-((u - 0.4) ** 2 + (v + 0.3) ** 2) / 0.04);
    const uneven = unevenly(piece, tilt);
    for (const turn of [1, 181]) {
      const reading = await read(uneven, 0.12, turn);
      const { widthMm, heightMm } = order;
      const flat = -Math.log10(fieldOf([128, 128, 128], 'piece')[1] / 0.92);
      const errors = density(reading).map(
        ({ at, d }) => d / flat - tilt((2 * at.x) / widthMm - 1, (2 * at.y) / heightMm - 1),
      );
      const rms = Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
      expect(rms, `turned ${turn}`).toBeLessThan(0.015);
    }
  });

  it('its noise is that of the cells', async () => {
    const reading = await read(piece, 0);
    expect(reading.noiseShare).toBeGreaterThan(0.0002);
    expect(reading.noiseShare).toBeLessThan(0.01);
  });

  it('another sheet than the one asked for is refused', async () => {
    const other = { ...order, sheetId: newSheetId(Uint8Array.of(1, 1, 1, 1, 1, 1)) };
    const file = await toFile(scan(piece, { ppi, seed: 3 }), { format: 'png', ppi });
    const refused = await readEvennessPicture(file, other).catch((error: unknown) => error);
    expect(isProblem(refused) && refused.code).toBe('scan.wrong-sheet');
  });
});
