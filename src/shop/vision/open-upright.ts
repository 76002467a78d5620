import sharp, { type Sharp, type SharpOptions } from 'sharp';

export type PictureSource = string | Uint8Array;

/** A path, or bytes as the image library takes them, uncopied. */
export function asInput(source: PictureSource): string | Buffer {
  return typeof source === 'string'
    ? source
    : Buffer.from(source.buffer, source.byteOffset, source.byteLength);
}

/** A picture turned upright by its own tag, and made smaller when it has more than `mostPixels`. */
export function openUpright(
  input: string | Buffer,
  options: SharpOptions,
  stored: { readonly width: number; readonly height: number; readonly orientation?: number | undefined },
  mostPixels: number,
): { readonly opened: Sharp; readonly upWidth: number } {
  const { width, height, orientation = 1 } = stored;
  const shrink = Math.min(1, Math.sqrt(mostPixels / (width * height)));
  const [upWidth, upHeight] = orientation >= 5 ? [height, width] : [width, height];
  const upright = sharp(input, { ...options, autoOrient: true });
  if (shrink === 1) return { opened: upright, upWidth };
  // One factor for both directions; the pixel grid rounds them, so the width decides and the height follows.
  const opened = upright.resize({
    width: Math.round(upWidth * shrink),
    height: Math.round(upHeight * shrink),
    fit: 'fill',
  });
  return { opened, upWidth };
}
