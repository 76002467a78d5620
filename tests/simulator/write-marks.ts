import sharp from 'sharp';
import type { Mark, PlannedFrame } from '#craft/sheet';
import { chanceOf } from './chance.js';
import { fromBytes, type Picture } from './picture.js';

/**
 * A plain drawing of a planned frame through SVG and librsvg, mirrored when asked: the written sheet for tests that
 * need no colour or artwork of the real writer. Words are drawn as rows of small bars.
 */
export async function writeMarks(
  frame: PlannedFrame,
  widthMm: number,
  heightMm: number,
  ppi: number,
  options: { readonly mirror: boolean; readonly artworkSeed?: number },
): Promise<Picture> {
  const body =
    frame.marks.map(shape).join('') +
    (options.artworkSeed === undefined ? '' : artwork(frame, options.artworkSeed));
  const width = Math.round((widthMm * ppi) / 25.4);
  const height = Math.round((heightMm * ppi) / 25.4);
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${widthMm} ${heightMm}" preserveAspectRatio="none"><rect width="100%" height="100%" fill="#fff"/>${body}</svg>`;
  let image = sharp(Buffer.from(svg)).removeAlpha();
  if (options.mirror) image = image.flop();
  const { data, info } = await image.raw().toBuffer({ resolveWithObject: true });
  return fromBytes(data, info.width, info.height, ppi);
}

function shape(mark: Mark): string {
  if (mark.kind === 'fill') {
    const { xMm, yMm, widthMm, heightMm } = mark.rect;
    return `<rect x="${xMm}" y="${yMm}" width="${widthMm}" height="${heightMm}" fill="rgb(${mark.rgb.join()})"/>`;
  }
  if (mark.kind === 'cells') {
    const { rect, columns, rows, cells } = mark;
    const w = rect.widthMm / columns;
    const h = rect.heightMm / rows;
    const path = cells
      .map((on, i) =>
        on
          ? `M${rect.xMm + (i % columns) * w} ${rect.yMm + Math.floor(i / columns) * h}h${w}v${h}h${-w}z`
          : '',
      )
      .join('');
    return `<path d="${path}" shape-rendering="crispEdges"/>`;
  }
  if (mark.kind === 'shape') {
    const points = mark.corners.map(({ xMm, yMm }) => `${xMm},${yMm}`).join(' ');
    return `<polygon points="${points}" fill="rgb(${mark.rgb.join()})"/>`;
  }
  const bars = [...mark.text]
    .map((letter, i) =>
      letter === ' '
        ? ''
        : `<rect x="${i * 0.72 * mark.capHeightMm}" y="${-mark.capHeightMm}" width="${0.45 * mark.capHeightMm}" height="${mark.capHeightMm}" fill="#222"/>`,
    )
    .join('');
  return `<g transform="translate(${mark.xMm} ${mark.yMm})">${bars}</g>`;
}

/** Something busy in the live area: coloured boxes, black squares and checks that may be mistaken for marks. */
function artwork({ liveArea }: PlannedFrame, seed: number): string {
  const chance = chanceOf(seed);
  const parts: string[] = [];
  for (let i = 0; i < 40; i += 1) {
    const side = chance.between(3, 16);
    const x = liveArea.xMm + chance.next() * Math.max(1, liveArea.widthMm - side);
    const y = liveArea.yMm + chance.next() * Math.max(1, liveArea.heightMm - side);
    const kind = chance.next();
    if (kind < 0.5) {
      const rgb = [0, 0, 0].map(() => Math.floor(256 * chance.next()));
      parts.push(
        `<rect x="${x}" y="${y}" width="${side}" height="${side * chance.between(0.5, 1)}" fill="rgb(${rgb.join()})" transform="rotate(${chance.between(0, 90)} ${x} ${y})"/>`,
      );
      continue;
    }
    // A black square with a random 4 × 4 pattern on a white ground: as like a marker as artwork can be.
    const cell = side / 8;
    parts.push(
      `<rect x="${x}" y="${y}" width="${side}" height="${side}" fill="#fff"/><rect x="${x + cell}" y="${y + cell}" width="${6 * cell}" height="${6 * cell}"/>`,
    );
    for (let k = 0; k < 16; k += 1) {
      if (chance.next() < 0.5)
        parts.push(
          `<rect x="${x + (2 + (k % 4)) * cell}" y="${y + (2 + Math.floor(k / 4)) * cell}" width="${cell}" height="${cell}" fill="#fff"/>`,
        );
    }
  }
  return `<g>${parts.join('')}</g>`;
}
