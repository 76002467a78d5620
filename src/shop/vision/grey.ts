import type { GreyPicture, Point } from '#craft/reading';
import { greyAt, mapPoint, type PlaneMap, type RgbPicture } from '#craft/reading';

/** Luma of sRGB-encoded bytes (weights of ITU-R BT.601, as OpenCV takes): for finding edges, not for colour. */
export function greyOf({ width, height, data }: RgbPicture): GreyPicture {
  const grey = new Uint8Array(width * height);
  for (let i = 0, at = 0; i < grey.length; i += 1, at += 3) {
    grey[i] = (data[at]! * 77 + data[at + 1]! * 150 + data[at + 2]! * 29 + 128) >> 8;
  }
  return { width, height, data: grey };
}

/** Made smaller by a whole number, each pixel the mean of its block; the rest at right and bottom is dropped. */
export function shrunk(picture: GreyPicture, factor: number): GreyPicture {
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

export function flipped({ width, height, data }: GreyPicture): GreyPicture {
  const turned = new Uint8Array(data.length);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0, from = (y + 1) * width - 1; x < width; x += 1, from -= 1)
      turned[y * width + x] = data[from]!;
  }
  return { width, height, data: turned };
}

/**
 * The part of a picture that a square of `side` pixels maps onto, straightened. Each pixel is the mean of a few
 * samples, so that shrinking does not alias.
 */
export function straightened(picture: GreyPicture, toPicture: PlaneMap, side: number): GreyPicture {
  const data = new Uint8Array(side * side);
  const a = mapPoint(toPicture, { x: 0, y: 0 });
  const b = mapPoint(toPicture, { x: side, y: side });
  const step = Math.hypot(b.x - a.x, b.y - a.y) / (side * Math.SQRT2);
  const n = Math.min(4, Math.max(1, Math.ceil(step)));
  for (let y = 0; y < side; y += 1) {
    for (let x = 0; x < side; x += 1) {
      let sum = 0;
      for (let k = 0; k < n * n; k += 1) {
        const point: Point = mapPoint(toPicture, {
          x: x + ((k % n) + 0.5) / n,
          y: y + (Math.floor(k / n) + 0.5) / n,
        });
        const inside = point.x >= 0 && point.y >= 0 && point.x < picture.width && point.y < picture.height;
        sum += inside ? greyAt(picture, point.x, point.y) : 255;
      }
      data[y * side + x] = Math.round(sum / (n * n));
    }
  }
  return { width: side, height: side, data };
}
