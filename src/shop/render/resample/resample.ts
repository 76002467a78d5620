import { randomUUID } from 'node:crypto';
import { rm, stat, statfs } from 'node:fs/promises';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { channelsOf, nativeSpace } from '../artwork/colour-space.js';
import { asImageProblem } from '../artwork/image-problem.js';
import { openPicture } from '../artwork/open-picture.js';
import { orCancelled } from '../cancel.js';
import { noRoom } from '../disk-problem.js';
import type { PixelArtwork, PixelPiece } from '../geometry/pixel-sheet.js';
import type { RenderSource } from '../types.js';
import type { Raster } from './raster.js';
import { readTiffLayout } from './tiff-layout.js';
import { turnQuarters } from './turn-quarters.js';
import { visibleCut, visibleCutTurned } from './visible.js';

export interface ResampleOptions {
  /** Quick: let the decoder halve the picture on the way in. For previews, not for sheets. */
  readonly quick?: boolean;
  /** 0..1, told by how much of the files stands written; libvips itself says nothing. */
  readonly onProgress?: (fraction: number) => void;
}

/** Rasters by piece; pieces alike share one. Null: nothing of the artwork shows on that piece. */
export interface ResampledArtwork {
  readonly byPiece: readonly (Raster | null)[];
  remove(): Promise<void>;
}

const classicTiffBytes = 3.9e9;

/** Resample the artwork once for every distinct placement among the pieces. */
export async function resampleArtwork(
  source: Omit<RenderSource, 'link'>,
  pieces: readonly PixelPiece[],
  options: ResampleOptions = {},
): Promise<ResampledArtwork> {
  const files: string[] = [];
  const placements = new Set(pieces.map(placementKey)).size;
  const known = new Map<string, Raster | null>();
  const byPiece: (Raster | null)[] = [];
  const remove = async () => {
    await Promise.all(files.map((file) => rm(file, { force: true })));
  };
  try {
    for (const piece of pieces) {
      const { width, height } = piece.box;
      const key = placementKey(piece);
      if (!known.has(key)) {
        const newFile = () => {
          const file = join(source.tempFolder, `resampled-${randomUUID()}.tif`);
          files.push(file);
          return file;
        };
        const told = (fraction: number) => options.onProgress?.((known.size + fraction) / placements);
        const one = resampleOne(
          source,
          piece.artwork,
          width,
          height,
          { ...options, onProgress: told },
          newFile,
        );
        // libvips cannot be interrupted: after a cancel its file goes when it has ended.
        one.finally(() => (source.signal?.aborted ? remove() : undefined)).catch(() => undefined);
        known.set(key, await orCancelled(one, source.signal));
      }
      byPiece.push(known.get(key)!);
    }
  } catch (error) {
    await remove();
    throw asImageProblem(error);
  }
  return { byPiece, remove };
}

async function resampleOne(
  source: Omit<RenderSource, 'link'>,
  upright: PixelArtwork,
  boxWidth: number,
  boxHeight: number,
  options: ResampleOptions,
  newFile: () => string,
): Promise<Raster | null> {
  const facts = source.artworkFacts;
  const storedTurn = await turnAsStored(source);
  const artwork = storedTurn === null ? upright : asStored(upright, storedTurn);
  const byQuarters = artwork.rotationDegrees % 90 === 0;
  const straight = byQuarters ? visibleCut(artwork, boxWidth, boxHeight) : null;
  const cut = byQuarters ? straight : visibleCutTurned(artwork, boxWidth, boxHeight);
  if (cut === null) return null;
  const samples = channelsOf(facts) + (facts.hasAlpha ? 1 : 0);
  const cutBytes = cut.width * cut.height * samples * (facts.bitsPerSample / 8);
  await ensureRoom(source.tempFolder, artwork.rotationDegrees === 0 ? cutBytes : 3 * cutBytes);

  const resized = newFile();
  const picture = await openPicture(source.artworkPath, facts, {
    drawWidth: artwork.width,
    drawHeight: artwork.height,
    asStored: storedTurn !== null,
  });
  await writeUncompressed(
    picture
      .resize(artwork.width, artwork.height, {
        fit: 'fill',
        kernel: 'lanczos3',
        fastShrinkOnLoad: options.quick === true,
      })
      .extract({ left: cut.u, top: cut.v, width: cut.width, height: cut.height }),
    resized,
    cutBytes,
    options.onProgress,
  );
  const shared = {
    colourChannels: channelsOf(facts),
    hasAlpha: facts.hasAlpha,
    bits: facts.bitsPerSample,
  } as const;
  if (straight !== null && artwork.rotationDegrees === 0) {
    return { ...shared, ...placed(resized), left: straight.left, top: straight.top, cover: null };
  }

  const turned = newFile();
  if (straight !== null) {
    const quarters = (artwork.rotationDegrees / 90) as 1 | 2 | 3;
    const pixelBytes = samples * (facts.bitsPerSample / 8);
    const task = { from: placed(resized), to: turned, pixelBytes, quarters };
    const file = await turnQuarters(task, source.signal);
    await rm(resized, { force: true });
    return { ...shared, ...file, left: straight.left, top: straight.top, cover: null };
  }
  const space = nativeSpace(facts);
  const again = sharp(resized, { ignoreIcc: true, limitInputPixels: false, sequentialRead: false })
    .pipelineColourspace(space)
    .toColourspace(space);
  const radians = (artwork.rotationDegrees * Math.PI) / 180;
  const cos = Math.cos(radians);
  const sin = Math.sin(radians);
  await writeUncompressed(
    again.affine([cos, -sin, sin, cos], { background: '#ffffff', interpolator: 'bicubic' }),
    turned,
    2 * cutBytes,
  );
  await rm(resized, { force: true });
  const file = placed(turned);
  // The cut's centre is carried to the centre of the turned picture.
  const du = cut.u + cut.width / 2 - artwork.width / 2;
  const dv = cut.v + cut.height / 2 - artwork.height / 2;
  return {
    ...shared,
    ...file,
    left: Math.round(artwork.centreX + du * cos - dv * sin - file.width / 2),
    top: Math.round(artwork.centreY + du * sin + dv * cos - file.height / 2),
    cover: {
      centreX: artwork.centreX,
      centreY: artwork.centreY,
      halfWidth: artwork.width / 2,
      halfHeight: artwork.height / 2,
      cos,
      sin,
    },
  };
}

function placed(path: string): Pick<Raster, 'path' | 'dataOffset' | 'width' | 'height'> {
  const { dataOffset, width, height } = readTiffLayout(path);
  return { path, dataOffset, width, height };
}

async function writeUncompressed(
  picture: Sharp,
  path: string,
  bytes: number,
  onProgress?: (fraction: number) => void,
): Promise<void> {
  const watch = setInterval(() => {
    stat(path).then(
      ({ size }) => onProgress?.(Math.min(1, size / bytes)),
      () => undefined,
    );
  }, 250);
  try {
    // sharp cannot write raw pixels to a file; an uncompressed TIFF is that with a head.
    await picture.tiff({ compression: 'none', bigtiff: bytes > classicTiffBytes }).toFile(path);
  } finally {
    clearInterval(watch);
  }
}

function placementKey({ box, artwork }: PixelPiece): string {
  return JSON.stringify([box.width, box.height, artwork]);
}

async function ensureRoom(folder: string, neededBytes: number): Promise<void> {
  const { bavail, bsize } = await statfs(folder);
  const free = bavail * bsize;
  if (free < neededBytes) throw noRoom(neededBytes, free);
}

/** How far a camera's picture must be turned clockwise to stand upright (Exif 2.32, Orientation), when that is all. */
const exifTurns: Record<number, 90 | 180 | 270> = { 3: 180, 6: 90, 8: 270 };

/**
 * Null: libvips turns (or mirrors) it on the way in, or there is nothing to turn. A camera's quarter turn is done with
 * the placement's own instead, since libvips would hold the whole picture in memory for it.
 */
async function turnAsStored({
  artworkPath,
  artworkFacts,
}: Pick<RenderSource, 'artworkPath' | 'artworkFacts'>): Promise<90 | 180 | 270 | null> {
  if (artworkFacts.format === 'svg') return null;
  const { orientation } = await sharp(artworkPath, { limitInputPixels: false }).metadata();
  return exifTurns[orientation ?? 1] ?? null;
}

/** The same placement, of the picture as it is stored. */
function asStored(upright: PixelArtwork, turn: 90 | 180 | 270): PixelArtwork {
  const sideways = turn !== 180;
  return {
    ...upright,
    width: sideways ? upright.height : upright.width,
    height: sideways ? upright.width : upright.height,
    rotationDegrees: (upright.rotationDegrees + turn) % 360,
  };
}
