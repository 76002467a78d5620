import sharp, { type Sharp } from 'sharp';
import type { ArtworkFacts } from '../types.js';
import { fileKind } from './file-kind.js';
import { asImageProblem } from './image-problem.js';
import { defaultMaxPixels, naturalSize, readSvg } from './open-picture.js';

const opaqueQuality = 88;

/**
 * The artwork as it looks, for a screen: sRGB, upright, no larger than `maxPixels` on its longer side. PNG where
 * parts are see-through, else JPEG. libvips' own conversion is good enough to show; sheets never use it.
 */
export async function pictureForScreen(
  artworkPath: string,
  maxPixels: number,
): Promise<{ bytes: Buffer; mediaType: 'image/png' | 'image/jpeg' }> {
  const side = Math.max(1, Math.min(4000, Math.round(maxPixels)));
  const format: ArtworkFacts['format'] = await fileKind(artworkPath);
  try {
    const picture = await open(artworkPath, format, side);
    const { hasAlpha } = await picture.metadata();
    const small = picture
      .resize(side, side, { fit: 'inside', withoutEnlargement: true })
      .toColourspace('srgb');
    return hasAlpha
      ? { bytes: await small.png().toBuffer(), mediaType: 'image/png' }
      : { bytes: await small.jpeg({ quality: opaqueQuality }).toBuffer(), mediaType: 'image/jpeg' };
  } catch (error) {
    throw asImageProblem(error);
  }
}

async function open(path: string, format: ArtworkFacts['format'], side: number): Promise<Sharp> {
  const shared = { failOn: 'error', limitInputPixels: defaultMaxPixels } as const;
  if (format !== 'svg') return sharp(path, { ...shared, autoOrient: true });
  const svg = await readSvg(path);
  const { width, height } = await naturalSize(svg);
  return sharp(svg, { ...shared, density: Math.max(1, (72 * side) / Math.max(width, height)) });
}
