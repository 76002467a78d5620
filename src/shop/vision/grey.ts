import type { GreyPicture, RgbPicture } from '#craft/reading';

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
