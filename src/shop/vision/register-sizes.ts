import sharp from 'sharp';
import type { GreyPicture } from '#craft/reading';

/** Eight bits of sRGB, three a pixel. */
export interface RgbBytes {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

const rawOf = ({ width, height, data }: RgbBytes) =>
  sharp(new Uint8Array(data.buffer, data.byteOffset, data.byteLength), {
    raw: { width, height, channels: 3 },
    limitInputPixels: false,
  });

/** The same picture with a long side of so many pixels, in colour bytes. */
export async function colourOfSize(picture: RgbBytes, longSide: number): Promise<RgbBytes> {
  const { width, height } = sizeOf(picture, longSide);
  if (width === picture.width && height === picture.height) return picture;
  const data = await rawOf(picture).resize({ width, height, fit: 'fill' }).raw().toBuffer();
  return { width, height, data: new Uint8Array(data.buffer, data.byteOffset, data.byteLength) };
}

export function sizeOf(
  { width, height }: { readonly width: number; readonly height: number },
  longSide: number,
): { width: number; height: number } {
  const share = longSide / Math.max(width, height);
  return {
    width: Math.max(1, Math.round(width * share)),
    height: Math.max(1, Math.round(height * share)),
  };
}

/** Luma (weights of ITU-R BT.601) of colour bytes. */
export function lumaOf({ width, height, data }: RgbBytes): GreyPicture {
  const grey = new Uint8Array(width * height);
  for (let i = 0, at = 0; i < grey.length; i += 1, at += 3) {
    grey[i] = (data[at]! * 77 + data[at + 1]! * 150 + data[at + 2]! * 29 + 128) >> 8;
  }
  return { width, height, data: grey };
}

/** Left for right. */
export function mirroredGrey({ width, height, data }: GreyPicture): GreyPicture {
  const turned = new Uint8Array(data.length);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) turned[y * width + x] = data[y * width + width - 1 - x]!;
  }
  return { width, height, data: turned };
}
