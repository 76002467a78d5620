import sharp from 'sharp';
import { isProblem, Problem } from '#craft/problem';
import type { PictureFacts, RgbPicture } from '#craft/reading';
import { writtenByCamera } from './camera-tags.js';
import { asInput, openUpright } from './open-upright.js';

export interface OpenedPicture {
  readonly picture: RgbPicture;
  readonly facts: PictureFacts;
  /** The file's orientation tag (EXIF 2, 4, 5 or 7) turned the picture over. */
  readonly fileFlipped: boolean;
  /** Pixels of `picture` per pixel of the file. */
  readonly scale: number;
}

/** Larger scans are made smaller before reading: this is A4 at 600 ppi, more than marks need. */
const mostPixels = 36_000_000;
const formats = new Set(['png', 'jpeg', 'tiff', 'webp', 'gif', 'avif', 'heif']);

/**
 * Open a scan or photo as upright sRGB bytes, transparent parts on white.
 * @param source a path, or the file's bytes. @throws Problem `image.*`, `file.missing`.
 */
export async function openScan(source: string | Uint8Array, pixelLimit: number): Promise<OpenedPicture> {
  try {
    const options = { failOn: 'error', limitInputPixels: pixelLimit } as const;
    const input = asInput(source);
    const { width, height, density, orientation = 1, format, exif } = await sharp(input, options).metadata();
    if (!formats.has(format)) {
      throw new Problem('image.wrong-type', `A scan cannot be a ${format.toUpperCase()} file.`, {
        remedy: 'Scan to PNG, JPEG or TIFF.',
      });
    }
    const fileFlipped = [2, 4, 5, 7].includes(orientation);
    const { opened, upWidth } = openUpright(input, options, { width, height, orientation }, mostPixels);
    const { data, info } = await opened
      .flatten({ background: '#ffffff' })
      .toColourspace('srgb')
      .removeAlpha()
      .raw({ depth: 'uchar' })
      .toBuffer({ resolveWithObject: true });
    const scale = info.width / upWidth;
    const bytes =
      info.channels === 3 ? new Uint8Array(data.buffer, data.byteOffset, data.byteLength) : tripled(data);
    return {
      picture: { width: info.width, height: info.height, data: bytes },
      facts: { taggedPpi: density ? density * scale : null, fromCamera: writtenByCamera(exif) },
      fileFlipped,
      scale,
    };
  } catch (error) {
    throw asScanProblem(error);
  }
}

function tripled(grey: Buffer): Uint8Array {
  const rgb = new Uint8Array(grey.length * 3);
  for (let i = 0; i < grey.length; i += 1) rgb.fill(grey[i]!, 3 * i, 3 * i + 3);
  return rgb;
}

export function asScanProblem(error: unknown): Problem {
  if (isProblem(error)) return error;
  const text = error instanceof Error ? error.message : String(error);
  if (/Input file is missing|ENOENT/i.test(text)) {
    return new Problem('file.missing', 'The scan is not where it was said to be.', {
      remedy: 'Check the name and the folder, and give it again.',
      cause: error,
    });
  }
  if (/pixel limit|too large|exceeds/i.test(text)) {
    return new Problem('image.too-large', 'The scan has more pixels than the set limit.', {
      remedy: 'Scan the sheet at 300 ppi.',
      cause: error,
    });
  }
  if (/unsupported image format|unsupported codec|empty/i.test(text)) {
    return new Problem('image.wrong-type', 'The file is not a picture this program reads.', {
      remedy: 'Scan to PNG, JPEG or TIFF.',
      cause: error,
    });
  }
  return new Problem('image.unreadable', 'The scan is damaged or cut short, and cannot be read to its end.', {
    remedy: 'Scan the sheet again.',
    cause: error,
  });
}
