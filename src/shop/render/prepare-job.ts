import { randomUUID } from 'node:crypto';
import type { DeviceLink, GridLink } from '#craft/icc';
import { Problem } from '#craft/problem';
import { channelsOf } from './artwork/colour-space.js';
import { makeArena } from './bands/arena.js';
import type { BandEncoding, BandJob } from './bands/band-job.js';
import type { PixelMarks } from './geometry/mark-pixels.js';
import type { PixelSheet } from './geometry/pixel-sheet.js';
import type { Raster } from './resample/raster.js';
import type { ResampledArtwork } from './resample/resample.js';
import type { RenderSource } from './types.js';

export interface JobOptions {
  readonly mirror: boolean;
  readonly outBits: 8 | 16;
  readonly encoding: BandEncoding;
  readonly workers: number;
  readonly proof?: DeviceLink | null;
}

/** Everything worked out beforehand, as the worker threads take it. */
export async function prepareJob(
  source: RenderSource,
  sheet: PixelSheet,
  marks: PixelMarks,
  artwork: ResampledArtwork,
  options: JobOptions,
): Promise<BandJob> {
  const { link, artworkFacts } = source;
  if (link.inputChannels !== channelsOf(artworkFacts)) {
    throw new Problem('internal.fault', 'The colour conversion does not fit the artwork.', {
      remedy: 'Report this with the artwork that causes it.',
      where: `link takes ${link.inputChannels} channels, artwork is ${artworkFacts.colourModel}`,
    });
  }
  const rasters = [...new Set(artwork.byPiece)].filter((raster): raster is Raster => raster !== null);
  const widestRow = Math.max(1, ...rasters.map((raster) => raster.width));
  const workBits = artworkFacts.bitsPerSample === 16 || options.outBits === 16 ? 16 : 8;
  const arena = await makeArena(link, workBits, options.workers, widestRow);
  const proof = options.proof ? await makeArena(options.proof, 8, options.workers, 1) : null;
  return {
    id: randomUUID(),
    width: sheet.width,
    height: sheet.height,
    mirror: options.mirror,
    workBits,
    outBits: options.outBits,
    pieces: sheet.pieces.map(({ box, form, leftForRight }, index) => {
      const raster = artwork.byPiece[index] ?? null;
      return { box, form, leftForRight, raster: raster === null ? null : rasters.indexOf(raster) };
    }),
    rasters,
    fills: marks.fills,
    texts: marks.texts,
    arena,
    bentGrid: link.kind === 'grid' && link.bends !== undefined ? withoutTable(link) : null,
    proof,
    encoding: options.encoding,
  };
}

/** The arena has the table already; a job is posted with every band, so it does not carry it again. */
function withoutTable(link: GridLink): GridLink {
  return { ...link, table: new Uint16Array(0) };
}
