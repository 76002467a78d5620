import { readFile, stat } from 'node:fs/promises';
import sharp, { type Sharp } from 'sharp';
import { Problem } from '#craft/problem';
import type { ArtworkFacts } from '../types.js';
import { nativeSpace } from './colour-space.js';
import { asImageProblem } from './image-problem.js';
import { limitVips } from './vips-limits.js';

limitVips();

/** Pictures of more pixels than this are refused unless the caller sets another limit. */
export const defaultMaxPixels = 500_000_000;

/** Drawings are text; one larger than this is not a drawing a person made. */
const largestSvgBytes = 64 * 1024 * 1024;
/** librsvg draws no side longer than this. */
const longestSvgSide = 32_000;
/** The resolution at which librsvg takes an SVG's own units; density scales from here. */
const svgUnitsPerInch = 72;

export interface OpenOptions {
  readonly maxPixels?: number;
  /** For a drawing: draw it at least this large. */
  readonly drawWidth?: number;
  readonly drawHeight?: number;
  /** True: as the pixels are stored; the caller turns them upright. */
  readonly asStored?: boolean;
  /** True when later steps (turning) need the picture out of order. */
  readonly randomAccess?: boolean;
}

/** The SVG's bytes: given as bytes, librsvg has no base address and so follows no reference out of the file. */
export async function readSvg(path: string): Promise<Buffer> {
  if ((await stat(path)).size > largestSvgBytes) {
    throw new Problem('image.too-large', 'The SVG file is larger than 64 MB.', {
      remedy: 'Export the drawing as a PNG at the size it will be printed.',
    });
  }
  return asUtf8(await readFile(path));
}

/** UTF-16 by its byte order mark (XML 1.0, 4.3.3), which librsvg's loader does not take, as UTF-8. */
function asUtf8(svg: Buffer): Buffer {
  const encoding =
    svg[0] === 0xff && svg[1] === 0xfe ? 'utf-16le' : svg[0] === 0xfe && svg[1] === 0xff ? 'utf-16be' : null;
  if (encoding === null) return svg;
  const text = new TextDecoder(encoding).decode(svg);
  return Buffer.from(text.replace(/^<\?xml[^>]*\?>/, ''));
}

/** Open artwork in its own numbers: no profile applied, upright after EXIF orientation, first frame only. */
export async function openPicture(
  path: string,
  facts: ArtworkFacts,
  options: OpenOptions = {},
): Promise<Sharp> {
  const shared = {
    ignoreIcc: true,
    failOn: 'error',
    limitInputPixels: options.maxPixels ?? defaultMaxPixels,
    sequentialRead: options.randomAccess !== true,
  } as const;
  const space = nativeSpace(facts);
  if (facts.format !== 'svg') {
    return sharp(path, { ...shared, autoOrient: options.asStored !== true })
      .pipelineColourspace(space)
      .toColourspace(space);
  }
  const svg = await readSvg(path);
  const natural = await naturalSize(svg);
  const scale = Math.max(
    (options.drawWidth ?? 1) / natural.width,
    (options.drawHeight ?? 1) / natural.height,
  );
  const largest = longestSvgSide / Math.max(natural.width, natural.height);
  const density = Math.max(1, svgUnitsPerInch * Math.min(scale, largest));
  return sharp(svg, { ...shared, density })
    .pipelineColourspace(space)
    .toColourspace(space);
}

/** An SVG's size in pixels as written in it (72 units an inch for physical units). */
export async function naturalSize(svg: Buffer): Promise<{ width: number; height: number }> {
  try {
    const { width, height } = await sharp(svg, { limitInputPixels: false }).metadata();
    return { width, height };
  } catch (error) {
    throw asImageProblem(error);
  }
}
