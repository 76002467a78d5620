import sharp from 'sharp';

/** Three channels of linear light a pixel, 0 black … 1 paper-white light; row by row from the top left. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly ppi: number;
  readonly data: Float32Array;
}

/** sRGB, IEC 61966-2-1: encoded byte → linear. */
const linearOfByte = Float32Array.from({ length: 256 }, (_, byte) => {
  const v = byte / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});

export const encode = (v: number): number => (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);

export function blank(
  width: number,
  height: number,
  ppi: number,
  rgb: readonly number[] = [1, 1, 1],
): Picture {
  const data = new Float32Array(width * height * 3);
  for (let i = 0; i < data.length; i += 1) data[i] = rgb[i % 3]!;
  return { width, height, ppi, data };
}

/** The sheet as written: any image file or buffer that sharp reads, or raw RGB bytes. */
export async function writtenSheet(file: Buffer | string, ppi: number): Promise<Picture> {
  const { data, info } = await sharp(file)
    .flatten({ background: '#fff' })
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  return fromBytes(data, info.width, info.height, ppi);
}

export function fromBytes(rgb: Uint8Array, width: number, height: number, ppi: number): Picture {
  return { width, height, ppi, data: Float32Array.from(rgb, (byte) => linearOfByte[byte]!) };
}

export function toBytes({ data }: Picture): Buffer {
  const bytes = Buffer.alloc(data.length);
  for (let i = 0; i < data.length; i += 1) {
    bytes[i] = Math.round(255 * encode(Math.min(1, Math.max(0, data[i]!))));
  }
  return bytes;
}

export type Encoding =
  | { readonly format: 'png'; readonly ppi?: number }
  | { readonly format: 'tiff'; readonly ppi: number }
  | { readonly format: 'jpeg'; readonly quality: number; readonly ppi?: number; readonly camera?: boolean };

/** As a file. A camera's JPEG carries exposure tags, as phones write them, and the 72 ppi that means nothing. */
export async function toFile(picture: Picture, encoding: Encoding): Promise<Buffer> {
  const { width, height } = picture;
  let image = sharp(toBytes(picture), { raw: { width, height, channels: 3 } });
  const camera = encoding.format === 'jpeg' && encoding.camera === true;
  const ppi = camera ? 72 : encoding.ppi;
  if (camera) {
    image = image.withExif({ IFD2: { ExposureTime: '1/60', FNumber: '18/10', FocalLength: '42/10' } });
  }
  if (ppi !== undefined) image = image.withMetadata({ density: ppi });
  if (encoding.format === 'jpeg') return image.jpeg({ quality: encoding.quality }).toBuffer();
  if (encoding.format === 'tiff')
    return image
      .tiff({ compression: 'lzw', xres: encoding.ppi / 25.4, yres: encoding.ppi / 25.4 })
      .toBuffer();
  return image.png({ compressionLevel: 1 }).toBuffer();
}
