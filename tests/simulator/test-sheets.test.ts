import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newSheetId, type SheetPlan } from '#craft/sheet';
import {
  choosePalette,
  choosePatches,
  colourSheetId,
  planColourSheet,
  planGreySheet,
  planPaletteSheet,
} from '#craft/testsheet';
import { closeRenderWorkers, makeSheetFile } from '#shop/render';
import { closeVision, readChartPicture, readSheetPicture } from '#shop/vision';
import { ink, type Picture, press, scan, toFile, writtenSheet } from './index.js';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'test-sheets-'));
});
afterAll(async () => {
  await closeVision();
  await closeRenderWorkers();
  await rm(folder, { recursive: true, force: true });
});

/** What the program itself writes for a plan without pieces, as a picture to be printed. */
async function written(plan: SheetPlan, ppi: number): Promise<Picture> {
  const outPath = path.join(folder, `${plan.sheetId}.png`);
  const output = { format: 'png', bitsPerSample: 8, colourTag: 'device' } as const;
  await makeSheetFile({ plan, ppi, output, outPath, tempFolder: folder });
  return writtenSheet(outPath, ppi);
}

const scanned = (picture: Picture): Promise<Buffer> =>
  toFile(scan(picture, { ppi: 200, turnDegrees: 1.1, seed: 12 }), { format: 'png', ppi: 200 });
const paper = { marginMm: 3, mirrorOnWriting: true };

describe('test sheets as the program writes them, printed and pressed', () => {
  it('a colour test sheet is read back, patch by patch', async () => {
    const { plan, layout } = planColourSheet({
      ...paper,
      widthMm: 118,
      heightMm: 84,
      sheetId: colourSheetId({ count: 30, seed: 77, material: 'hard' }),
      patches: choosePatches(30, 77),
      material: 'hard',
      seed: 77,
    });
    const piece = press(ink(await written(plan, 200)));
    const { reading } = await readChartPicture(await scanned(piece), { subject: 'piece' });
    expect(reading.sheetId).toBe(plan.sheetId);
    expect(reading.patches.map(({ deviceRgb }) => deviceRgb)).toEqual(
      layout.patches.map(({ deviceRgb }) => deviceRgb),
    );
    expect(reading.patches.filter(({ isSound }) => isSound).length).toBeGreaterThan(
      0.97 * layout.patches.length,
    );
  });

  it.each([
    [
      'grey sheet',
      () =>
        planGreySheet({
          ...paper,
          sheetId: newSheetId(Uint8Array.of(1, 1, 2, 3, 5, 8)),
          widthMm: 210,
          heightMm: 297,
        }).plan,
    ],
    [
      'palette',
      () =>
        planPaletteSheet({
          ...paper,
          sheetId: newSheetId(Uint8Array.of(8, 5, 3, 2, 1, 1)),
          widthMm: 210,
          heightMm: 148,
          swatches: choosePalette(() => true, 40).map(({ name }, i) => ({
            deviceRgb: [6 * i, 255 - 5 * i, 90] as const,
            title: name,
            note: 'Saltmarsh',
          })),
        }).plan,
    ],
  ] as const)('a %s says on paper which it is and that it is mirrored once', async (_, make) => {
    const plan = make();
    const picture = ink(await written(plan, 150));
    const onPaper = await readSheetPicture(await scanned(picture), { subject: 'paper', scanPpi: 200 });
    expect(onPaper).toMatchObject({ sheetId: plan.sheetId, mirroring: 'right', scale: 'right' });
    const pressed = await readSheetPicture(await scanned(press(picture)), { subject: 'piece', scanPpi: 200 });
    expect(pressed).toMatchObject({ sheetId: plan.sheetId, mirroring: 'right', seenMirrored: false });
  });
});
