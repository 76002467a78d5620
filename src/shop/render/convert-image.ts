import path from 'node:path';
import sharp from 'sharp';
import { buildLink, describeProfile, parseProfile } from '#craft/icc';
import { Problem } from '#craft/problem';
import { probeArtwork } from './artwork/probe.js';
import { sourceProfile } from './artwork/source-profile.js';
import { defaultWorkers } from './bands/pool.js';
import type { PixelSheet } from './geometry/pixel-sheet.js';
import type { ArtworkFacts, ConvertRequest, ConvertResult } from './types.js';
import { writeImage } from './write-image.js';
import { PngWriter } from './writers/png-writer.js';
import type { SheetImage } from './writers/sheet-writer.js';
import { TiffWriter } from './writers/tiff-writer.js';

/**
 * Take a whole picture through a colour path: same size, same depth, printer RGB out, untagged (the numbers are
 * for the printer, not for a screen). See-through parts come out white.
 */
export async function convertImage(request: ConvertRequest): Promise<ConvertResult> {
  const format = formatOf(request.outPath);
  const destination = parseProfile(request.iccBytes);
  if (!describeProfile(destination).canBeDestination) {
    throw new Problem('profile.unsupported', 'The profile has no way from colour to a printer’s RGB.', {
      remedy: 'Give an RGB output profile of the printer, ink and paper.',
    });
  }
  const limits = request.maxPixels === undefined ? {} : { maxPixels: request.maxPixels };
  const facts = await probeArtwork(request.inPath, limits);
  const link = buildLink({
    source: await sourceProfile(facts),
    destination,
    intent: request.intent,
    blackPointCompensation: request.blackPointCompensation,
  });
  const image: SheetImage = {
    width: facts.widthPixels,
    height: facts.heightPixels,
    ppi: await densityOf(request.inPath),
    bits: facts.bitsPerSample,
    iccBytes: null,
    title: path.basename(request.outPath),
  };
  const done = await writeImage(
    {
      artworkPath: request.inPath,
      artworkFacts: facts,
      link,
      tempFolder: request.tempFolder,
      ...(request.signal === undefined ? {} : { signal: request.signal }),
      onProgress: request.onProgress,
      sheet: wholePicture(facts, image.ppi),
      marks: async () => ({ fills: [], texts: [] }),
      outPath: request.outPath,
      options: { mirror: false, outBits: image.bits, workers: request.workers ?? defaultWorkers() },
    },
    (file) => (format === 'png' ? new PngWriter(file, image) : new TiffWriter(file, image)),
  );
  return { ...done, bitsPerSample: image.bits, remarks: facts.remarks };
}

function formatOf(outPath: string): 'png' | 'tiff' {
  const extension = path.extname(outPath).toLowerCase();
  if (extension === '.png') return 'png';
  if (extension === '.tif' || extension === '.tiff') return 'tiff';
  throw new Problem(
    'output.unsupported',
    `A picture cannot be written as '${extension || 'no type'}' here.`,
    {
      remedy: 'End the name in .png or .tif.',
    },
  );
}

/** A sheet that is the picture itself, pixel for pixel. */
function wholePicture({ widthPixels, heightPixels }: ArtworkFacts, ppi: number): PixelSheet {
  return {
    width: widthPixels,
    height: heightPixels,
    ppi,
    pieces: [
      {
        box: { left: 0, top: 0, width: widthPixels, height: heightPixels },
        form: { kind: 'rectangle', cornerRadius: 0 },
        artwork: {
          width: widthPixels,
          height: heightPixels,
          centreX: widthPixels / 2,
          centreY: heightPixels / 2,
          rotationDegrees: 0,
        },
        leftForRight: false,
      },
    ],
  };
}

/** Pixels per inch as the file says, else 72, which most programs take for 'not said'. */
async function densityOf(inPath: string): Promise<number> {
  const { density } = await sharp(inPath, { limitInputPixels: false }).metadata();
  return density !== undefined && density >= 1 ? Math.round(density) : 72;
}
