import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import type { SheetOutputOptions } from '#contract';
import type { DeviceLink } from '#craft/icc';
import type { SheetPlan } from '#craft/sheet';
import { probeArtwork } from '../artwork/probe.js';
import { closeRenderWorkers } from '../bands/pool.js';
import { makeSheetFile } from '../sheet-file.js';
import { identity, tenPerMm } from './plans.js';
import { noise, tiffByHand } from './tiff-by-hand.js';

export interface Making {
  readonly artwork: Buffer;
  readonly plan: SheetPlan;
  readonly link?: DeviceLink;
  readonly output?: Partial<SheetOutputOptions>;
}

/** A temporary folder with one piece of artwork in it at a time, and the making of sheets from it. */
export class Bench {
  readonly folder: string;
  readonly artworkPath: string;

  private constructor(folder: string) {
    this.folder = folder;
    this.artworkPath = path.join(folder, 'artwork.bin');
  }

  static async open(): Promise<Bench> {
    return new Bench(await mkdtemp(path.join(tmpdir(), 'sheets-')));
  }

  async close(): Promise<void> {
    await closeRenderWorkers();
    await rm(this.folder, { recursive: true, force: true });
  }

  /** Ten pixels a millimetre, two threads. Returns the file. */
  async make({ artwork, plan, link = identity, output = {} }: Making): Promise<string> {
    const full = { format: 'png', bitsPerSample: 8, colourTag: 'device', ...output } as const;
    const outPath = path.join(this.folder, `out.${full.format}`);
    const source = await this.source(artwork, link);
    await makeSheetFile({ ...source, plan, ppi: tenPerMm, output: full, outPath, workers: 2 });
    return outPath;
  }

  async source(artwork: Buffer, link: DeviceLink = identity) {
    await writeFile(this.artworkPath, artwork);
    const artworkFacts = await probeArtwork(this.artworkPath);
    return { artworkPath: this.artworkPath, artworkFacts, link, tempFolder: this.folder };
  }
}

export const flat = (colour: string, alpha = false): Promise<Buffer> =>
  sharp({ create: { width: 40, height: 40, channels: alpha ? 4 : 3, background: colour } })
    .png()
    .toBuffer();

/** Noise, for pieces exactly as large, so that resampling changes nothing. */
export function noisePicture(width: number, height: number, seed = 3): { samples: Uint8Array; file: Buffer } {
  const samples = noise(new Uint8Array(width * height * 3), seed);
  return { samples, file: tiffByHand({ width, height, samples, channels: 3, photometric: 2 }) };
}
