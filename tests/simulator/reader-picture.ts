/** What a reader's file holds: its optics, stray light, noise, dust, and 8 bits through its own curve, which no tag tells. */
import sharp from 'sharp';
import { chanceOf } from './chance.js';
import { blurred, warped } from './optics.js';
import type { Picture } from './picture.js';
import { speck } from './scanner.js';
import type { VirtualReader } from './virtual-reader.js';

export interface Flatbed {
  readonly turnDegrees: number;
  /** Light lost towards the corners of the glass. */
  readonly vignetting: number;
  /** σ of the optics, pixels: 0.6 leaves 40 % of the contrast at a quarter of the pixel rate. */
  readonly blurPixels?: number;
  /** σ of noise: at black, and what is added at white. */
  readonly noise?: readonly [number, number];
  readonly dust: number;
  readonly seed: number;
}

/** A flatbed of the piece's own resolution; `piece` in the reader's light. */
export function flatbed(piece: Picture, reader: VirtualReader, settings: Flatbed): Picture {
  const { turnDegrees, vignetting, blurPixels = 0.6, noise = [0.002, 0.006], dust, seed } = settings;
  const chance = chanceOf(seed);
  const angle = (turnDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const margin = (8 * piece.ppi) / 25.4;
  const size = {
    width: Math.round(Math.abs(piece.width * cos) + Math.abs(piece.height * sin) + margin),
    height: Math.round(Math.abs(piece.width * sin) + Math.abs(piece.height * cos) + margin),
    ppi: piece.ppi,
  };
  const lid = [0.8, 0.8, 0.8];
  const seen = warped(
    blurred(piece, blurPixels),
    size,
    (x, y) => {
      const [u, v] = [x - size.width / 2, y - size.height / 2];
      return [piece.width / 2 + u * cos + v * sin, piece.height / 2 - u * sin + v * cos];
    },
    () => lid,
  );
  for (let i = 0; i < dust; i += 1) speck(seen, chance);
  const stray = strayLight(seen);
  const { width, height, data } = seen;
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const r2 = ((2 * x) / width - 1.1) ** 2 + ((2 * y) / height - 0.9) ** 2;
      const lamp = 1 - (vignetting * r2) / 2;
      for (let c = 0; c < 3; c += 1, at += 1) {
        const lit = ((1 - reader.flare) * data[at]! + reader.flare * stray(x, y, c)) * lamp;
        data[at] = lit + (noise[0] + noise[1] * Math.sqrt(Math.max(0, lit))) * chance.normal();
      }
    }
  }
  return seen;
}

/** The mean of the neighbourhood, a centimetre or so, as glass and sensor throw it about. */
function strayLight(picture: Picture): (x: number, y: number, c: number) => number {
  const step = Math.max(8, Math.round((2 * picture.ppi) / 25.4));
  const width = Math.ceil(picture.width / step);
  const height = Math.ceil(picture.height / step);
  const data = new Float32Array(3 * width * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const sum = [0, 0, 0];
      let count = 0;
      for (let j = y * step; j < Math.min(picture.height, (y + 1) * step); j += 3) {
        for (let i = x * step; i < Math.min(picture.width, (x + 1) * step); i += 3, count += 1) {
          for (let c = 0; c < 3; c += 1) sum[c]! += picture.data[3 * (j * picture.width + i) + c]!;
        }
      }
      for (let c = 0; c < 3; c += 1) data[3 * (y * width + x) + c] = sum[c]! / count;
    }
  }
  const soft = blurred({ width, height, ppi: picture.ppi / step, data }, 4).data;
  return (x, y, c) => {
    const px = Math.min(width - 1.001, Math.max(0, x / step - 0.5));
    const py = Math.min(height - 1.001, Math.max(0, y / step - 0.5));
    const [x0, y0] = [Math.floor(px), Math.floor(py)];
    const at = 3 * (y0 * width + x0) + c;
    const top = soft[at]! + (px - x0) * (soft[at + 3]! - soft[at]!);
    const low = soft[at + 3 * width]! + (px - x0) * (soft[at + 3 * width + 3]! - soft[at + 3 * width]!);
    return top + (py - y0) * (low - top);
  };
}

/** The file. A phone's says so in its tags. */
export async function fileOfReader(
  { width, height, data, ppi }: Picture,
  { power }: VirtualReader,
  format: 'png' | 'jpeg' | 'phone',
  quality = 94,
): Promise<Buffer> {
  const levels = 65_535;
  const curve = Uint8Array.from({ length: levels + 1 }, (_, i) => Math.round(255 * (i / levels) ** power));
  const bytes = Buffer.alloc(data.length);
  for (let i = 0; i < data.length; i += 1)
    bytes[i] = curve[Math.round(levels * Math.min(1, Math.max(0, data[i]!)))]!;
  let image = sharp(bytes, { raw: { width, height, channels: 3 } });
  if (format === 'phone')
    image = image.withExif({ IFD2: { ExposureTime: '1/60', FNumber: '18/10', FocalLength: '42/10' } });
  image = image.withMetadata({ density: format === 'phone' ? 72 : ppi });
  return format === 'png'
    ? image.png({ compressionLevel: 1 }).toBuffer()
    : image.jpeg({ quality }).toBuffer();
}
