import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { closeVision, readSheetPicture } from '#shop/vision';

const examples = path.resolve(import.meta.dirname, '../../examples');
const read = (name: string) => readSheetPicture(path.join(examples, name), { subject: 'paper' });

afterAll(closeVision);

/** The table in examples/README.md. */
describe('the simulated examples say what their table says', () => {
  it.each([
    ['coaster-scan-right.jpg', { mirroring: 'right', scale: 'right', fileMirrored: true, markersFound: 4 }],
    ['coaster-scan-mirrored-twice.jpg', { mirroring: 'mirrored-twice', scale: 'right', markersFound: 4 }],
    ['mug-scan-fit-to-page.jpg', { mirroring: 'right', scale: 'wrong', markersFound: 4 }],
    ['mug-photo-right.jpg', { mirroring: 'right', scale: 'unknown', markersFound: 4 }],
  ] as const)('%s', async (name, expected) => {
    const reading = await read(name);
    expect(reading).toMatchObject(expected);
    expect(reading.sheetId).toMatch(/^[0-9A-Z]{10}$/);
    expect(reading.routeStrip).toHaveLength(12);
    if (name.includes('fit-to-page')) {
      expect(Math.abs(reading.scalePercent!.across - 97)).toBeLessThan(0.15);
      expect(Math.abs(reading.scalePercent!.along - 97)).toBeLessThan(0.15);
    }
  });

  it('blank-page-scan.jpg', async () => {
    await expect(read('blank-page-scan.jpg')).rejects.toMatchObject({ code: 'scan.no-marks' });
  });
});
