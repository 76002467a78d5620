import sharp, { type Sharp, type SharpOptions } from 'sharp';

export type PictureSource = string | Uint8Array;

/** A path, or bytes as the image library takes them, uncopied. */
export function asInput(source: PictureSource): string | Buffer {
  return typeof source === 'string'
    ? source
    : Buffer.from(source.buffer, source.byteOffset, source.byteLength);
}

/** As the file has it, and its orientation tag. */
export interface StoredSize {
  readonly width: number;
  readonly height: number;
  readonly orientation?: number | undefined;
}

/** How large it is when turned upright, and made smaller when it has more than `mostPixels`. */
export function uprightSize({ width, height, orientation = 1 }: StoredSize, mostPixels: number): UprightSize {
  const shrink = Math.min(1, Math.sqrt(mostPixels / (width * height)));
  const [upWidth, upHeight] = orientation >= 5 ? [height, width] : [width, height];
  if (shrink === 1) return { upWidth, upHeight, width: upWidth, height: upHeight };
  // One factor for both directions; the pixel grid rounds them, so the width decides and the height follows.
  return { upWidth, upHeight, width: Math.round(upWidth * shrink), height: Math.round(upHeight * shrink) };
}

export interface UprightSize {
  /** Upright, before being made smaller. */
  readonly upWidth: number;
  readonly upHeight: number;
  readonly width: number;
  readonly height: number;
}

/** A picture turned upright by its own tag, and made smaller when it has more than `mostPixels`. */
export function openUpright(
  input: string | Buffer,
  options: SharpOptions,
  stored: StoredSize,
  mostPixels: number,
): { readonly opened: Sharp; readonly upWidth: number } {
  const { upWidth, width, height } = uprightSize(stored, mostPixels);
  const upright = sharp(input, { ...options, autoOrient: true });
  if (width === upWidth) return { opened: upright, upWidth };
  return { opened: upright.resize({ width, height, fit: 'fill' }), upWidth };
}
