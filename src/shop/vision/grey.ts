import type { GreyPicture } from '#craft/reading';

/** Samples of a decoded picture, three a pixel. */
export interface RgbSamples {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array | Uint16Array;
}

/** Part of a picture in grey, and where it lies in the whole. */
export interface GreyWindow {
  readonly grey: GreyPicture;
  readonly left: number;
  readonly top: number;
}

/**
 * Luma of sRGB-encoded samples (weights of ITU-R BT.601, as OpenCV takes): for finding edges, not for colour. A large
 * picture is mostly no mark, so its grey is made only where it is looked at, or small.
 */
export class GreySource {
  readonly width: number;
  readonly height: number;
  readonly #data: Uint8Array | Uint16Array;
  readonly #shift: number;
  readonly #made = new Map<string, GreyPicture>();

  constructor({ width, height, data }: RgbSamples) {
    this.width = width;
    this.height = height;
    this.#data = data;
    this.#shift = data instanceof Uint16Array ? 16 : 8;
  }

  /** The part between these edges that lies in the picture; at least one pixel. */
  window(left: number, top: number, right: number, bottom: number): GreyWindow {
    const x0 = Math.min(this.width - 1, Math.max(0, Math.floor(left)));
    const y0 = Math.min(this.height - 1, Math.max(0, Math.floor(top)));
    const width = Math.max(1, Math.min(this.width, Math.ceil(right)) - x0);
    const height = Math.max(1, Math.min(this.height, Math.ceil(bottom)) - y0);
    const grey = new Uint8Array(width * height);
    for (let y = 0, to = 0; y < height; y += 1) {
      let at = 3 * ((y0 + y) * this.width + x0);
      for (let x = 0; x < width; x += 1, at += 3, to += 1) grey[to] = this.#lumaAt(at);
    }
    return { grey: { width, height, data: grey }, left: x0, top: y0 };
  }

  /** The whole, made smaller by a whole number, each pixel the mean of its block; the rest at right and bottom is dropped. */
  shrunk(factor: number): GreyPicture {
    return this.#once(`mean ${factor}`, () => {
      const whole = this.#once('whole', () => this.window(0, 0, this.width, this.height).grey);
      return shrunk(whole, factor);
    });
  }

  /** The same from four pixels of each block: enough against grain, and most of the picture stays untouched. */
  roughlyShrunk(factor: number): GreyPicture {
    if (factor <= 2) return this.shrunk(factor);
    return this.#once(`rough ${factor}`, () => {
      const width = Math.floor(this.width / factor);
      const height = Math.floor(this.height / factor);
      const small = new Uint8Array(width * height);
      const data = this.#data;
      const shift = this.#shift + 2;
      const near = Math.floor(factor / 4);
      const far = Math.floor((3 * factor) / 4);
      const across = 3 * (far - near);
      const down = 3 * this.width * (far - near);
      for (let y = 0, to = 0; y < height; y += 1) {
        let a = 3 * ((y * factor + near) * this.width + near);
        for (let x = 0; x < width; x += 1, a += 3 * factor, to += 1) {
          const [b, c, d] = [a + across, a + down, a + down + across];
          const red = data[a]! + data[b]! + data[c]! + data[d]!;
          const green = data[a + 1]! + data[b + 1]! + data[c + 1]! + data[d + 1]!;
          const blue = data[a + 2]! + data[b + 2]! + data[c + 2]! + data[d + 2]!;
          small[to] = (red * 77 + green * 150 + blue * 29) >>> shift;
        }
      }
      return { width, height, data: small };
    });
  }

  #lumaAt(at: number): number {
    const data = this.#data;
    const shift = this.#shift;
    return (data[at]! * 77 + data[at + 1]! * 150 + data[at + 2]! * 29 + (1 << (shift - 1))) >>> shift;
  }

  #once(name: string, make: () => GreyPicture): GreyPicture {
    const made = this.#made.get(name) ?? make();
    this.#made.set(name, made);
    return made;
  }
}

/** Made smaller by a whole number, each pixel the mean of its block. */
function shrunk(picture: GreyPicture, factor: number): GreyPicture {
  if (factor <= 1) return picture;
  const width = Math.floor(picture.width / factor);
  const height = Math.floor(picture.height / factor);
  const data = new Uint8Array(width * height);
  const sums = new Uint32Array(width);
  for (let y = 0; y < height; y += 1) {
    sums.fill(0);
    for (let j = 0; j < factor; j += 1) {
      let at = (y * factor + j) * picture.width;
      for (let x = 0; x < width; x += 1) {
        let sum = 0;
        for (let i = 0; i < factor; i += 1) sum += picture.data[at++]!;
        sums[x]! += sum;
      }
    }
    for (let x = 0; x < width; x += 1) data[y * width + x] = Math.round(sums[x]! / (factor * factor));
  }
  return { width, height, data };
}
