import { afterAll, describe, expect, it } from 'vitest';
import { deltaE00, labFromSrgb, linearToSrgb } from '#craft/colour';
import type { ChartReading, LinearRgb } from '#craft/patchreading';
import type { FrameVariant } from '#craft/sheet';
import { closeVision, readChartPicture } from '#shop/vision';
import { drawnOut, fieldOf, woven, writeChart } from './chart.js';
import { ink, press, scan, toFile } from './index.js';

afterAll(closeVision);

/** Mean CIEDE2000 of the sound patches beside the simulator's own solid fields, white for white. */
function meanError({ patches, groundRgb }: ChartReading): number {
  const white = fieldOf([255, 255, 255], 'piece');
  const lab = (rgb: LinearRgb, ground: LinearRgb): ReturnType<typeof labFromSrgb> =>
    labFromSrgb(rgb.map((v, c) => linearToSrgb(Math.max(0, v / ground[c]!))) as unknown as LinearRgb);
  const errors = patches
    .filter(({ isSound }) => isSound)
    .map(({ evenRgb, deviceRgb }) =>
      deltaE00(lab(evenRgb, groundRgb), lab(fieldOf(deviceRgb, 'piece'), white)),
    );
  return errors.reduce((sum, error) => sum + error, 0) / errors.length;
}

/**
 * Pressed on cloth: dye spread by σ 0.2 mm, shrunk by 1.5 %, drawn out by a millimetre, threads of 0.5 mm that take a
 * quarter to two fifths of the light. A sheet with the usual marks is not known again on it (chart.test.ts).
 */
async function onCloth(
  sheet: { widthMm: number; heightMm: number; count: number; variant: FrameVariant },
  cloth: { threadMm: number; depth: number; turnDegrees: number },
): Promise<void> {
  const { threadMm, depth, turnDegrees } = cloth;
  const chart = await writeChart({ ...sheet, seed: 8, material: 'fabric', ppi: 150 });
  const pressed = drawnOut(press(ink(chart.picture), { shrink: 0.985, spreadMm: 0.2 }), -1, 0.6);
  const lying = scan(pressed, { ppi: 300, turnDegrees, dust: 40, seed: 3 });
  const seen = await toFile(woven(lying, threadMm, depth), { format: 'png', ppi: 300 });
  const { reading } = await readChartPicture(seen, { subject: 'piece' });
  const error = meanError(reading);
  console.info(`${sheet.variant} on cloth of ${threadMm} mm threads: ΔE00`, error.toFixed(3));
  expect(reading.sheetId).toBe(chart.layout.sheetId);
  expect(reading.patches.filter(({ isSound }) => isSound).length).toBeGreaterThan(
    0.95 * chart.layout.patches.length,
  );
  // The weave takes the same share from the ground and from every colour.
  expect(error).toBeLessThan(0.3);
}

describe('a colour test sheet pressed on coarse cloth, scanned at 300 ppi, is read without being told which it is', () => {
  it('with its marks along top and bottom', () =>
    onCloth(
      { widthMm: 210, heightMm: 148, count: 80, variant: 'large-bands' },
      { threadMm: 0.5, depth: 0.25, turnDegrees: 1.5 },
    ));

  it('with its marks along the sides, upside down, on a deeper weave', () =>
    onCloth(
      { widthMm: 210, heightMm: 148, count: 60, variant: 'large-sides' },
      { threadMm: 0.5, depth: 0.4, turnDegrees: 178.4 },
    ));
});
