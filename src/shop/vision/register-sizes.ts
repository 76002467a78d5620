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
  if (width > picture.width || height > picture.height) return enlarged(picture, width, height);
  const data = await rawOf(picture).resize({ width, height, fit: 'fill' }).raw().toBuffer();
  return { width, height, data: new Uint8Array(data.buffer, data.byteOffset, data.byteLength) };
}

/**
 * Larger, straight between the pixels' middles. Not by the image library: its enlarging (sharp 0.35.5) lays the picture
 * half a new pixel to the right and down, which is more than is left over after registering; its shrinking does not.
 */
function enlarged(picture: RgbBytes, width: number, height: number): RgbBytes {
  const { data: from } = picture;
  const data = new Uint8Array(3 * width * height);
  const across = Array.from({ length: width }, (_, x) => between(x, width, picture.width));
  for (let y = 0, to = 0; y < height; y += 1) {
    const [y0, y1, fy] = between(y, height, picture.height);
    const [upper, lower] = [y0 * picture.width, y1 * picture.width];
    for (let x = 0; x < width; x += 1) {
      const [x0, x1, fx] = across[x]!;
      for (let c = 0; c < 3; c += 1, to += 1) {
        const high = from[3 * (upper + x0) + c]! * (1 - fx) + from[3 * (upper + x1) + c]! * fx;
        const low = from[3 * (lower + x0) + c]! * (1 - fx) + from[3 * (lower + x1) + c]! * fx;
        data[to] = high * (1 - fy) + low * fy + 0.5;
      }
    }
  }
  return { width, height, data };
}

/** The two old pixels whose middles a new one's lies between, and how far along. */
function between(i: number, count: number, old: number): readonly [number, number, number] {
  const at = Math.min(old - 1, Math.max(0, ((i + 0.5) * old) / count - 0.5));
  const first = Math.floor(at);
  return [first, Math.min(old - 1, first + 1), at - first];
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
