import sharp from 'sharp';
import type { Mark } from '#craft/sheet';
import { outlineText } from './outline.js';

/** A line of text as ink coverage, 0 none to 255 full, standing on the sheet's pixel grid. */
export interface TextMask {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Over shared memory, so that handing it to the workers copies nothing. */
  readonly coverage: Uint8Array;
}

/** Draw a text mark; wider than allowed it is set smaller. Null when nothing would show. */
export async function textMask(
  mark: Extract<Mark, { kind: 'text' }>,
  perMm: number,
): Promise<TextMask | null> {
  const outline = outlineText(mark.text);
  if (outline.path === '' || outline.width === 0) return null;
  const capPixels = Math.min(mark.capHeightMm, mark.maxWidthMm / outline.width) * perMm;
  const baseX = mark.xMm * perMm;
  const baseY = mark.yMm * perMm;
  const left = Math.floor(baseX) - 1;
  const top = Math.floor(baseY + outline.top * capPixels) - 1;
  const width = Math.ceil(baseX + outline.width * capPixels) + 1 - left;
  const height = Math.ceil(baseY + outline.bottom * capPixels) + 1 - top;
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">` +
    `<rect width="${width}" height="${height}" fill="#000"/>` +
    `<path transform="translate(${baseX - left} ${baseY - top}) scale(${capPixels})" fill="#fff" d="${outline.path}"/></svg>`;
  const { data } = await sharp(Buffer.from(svg))
    .toColourspace('b-w')
    .extractChannel(0)
    .raw()
    .toBuffer({ resolveWithObject: true });
  const coverage = new Uint8Array(new SharedArrayBuffer(width * height));
  coverage.set(data.subarray(0, width * height));
  return { left, top, width, height, coverage };
}
