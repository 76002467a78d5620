import sharp from 'sharp';
import type { Triple3 } from '#craft/colour';

/** Where artwork is shown from: the shelf of the shop, which stands beside the paths. */
export interface ArtworkPictures {
  picture(id: string, maxPixels: number): Promise<{ bytes: Buffer }>;
}

/** Colours that many pixels share. */
export interface CrowdColour {
  /** sRGB 0..1. */
  readonly srgb: Triple3;
  /** Of all pixels that show, 0..1. */
  readonly share: number;
}

/** Long side of the copy whose pixels are counted. */
const samplePixels = 400;
/** Steps a channel in which colours are told apart. */
const steps = 16;

/**
 * The colours of an artwork as a screen shows them, the commonest first. Colours beyond sRGB are counted at its edge.
 * Errors: record.missing, file.missing.
 */
export async function artworkCrowd(pictures: ArtworkPictures, artworkId: string): Promise<CrowdColour[]> {
  const { bytes } = await pictures.picture(artworkId, samplePixels);
  const { data } = await sharp(bytes)
    .toColourspace('srgb')
    .ensureAlpha()
    .raw({ depth: 'uchar' })
    .toBuffer({ resolveWithObject: true });
  const bins = new Map<number, Float64Array>();
  let total = 0;
  for (let at = 0; at + 3 < data.length; at += 4) {
    const weight = data[at + 3]! / 255;
    if (weight === 0) continue;
    const key =
      (Math.floor((data[at]! * steps) / 256) * steps + Math.floor((data[at + 1]! * steps) / 256)) * steps +
      Math.floor((data[at + 2]! * steps) / 256);
    const bin = bins.get(key) ?? new Float64Array(4);
    bin[0] = bin[0]! + weight;
    for (let c = 0; c < 3; c += 1) bin[c + 1] = bin[c + 1]! + weight * data[at + c]!;
    bins.set(key, bin);
    total += weight;
  }
  return [...bins.values()]
    .map((bin): CrowdColour => {
      const mean = (c: number): number => bin[c]! / bin[0]! / 255;
      return { srgb: [mean(1), mean(2), mean(3)], share: bin[0]! / total };
    })
    .sort((a, b) => b.share - a.share);
}
