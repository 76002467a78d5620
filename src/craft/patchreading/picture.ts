import type { LinearRgb, SampledPicture } from './types.js';

/** Bilinear mean of the three channels in linear light; pixel centres at .5. Outside the picture: 1, as if white. */
export function lightAt(picture: SampledPicture, x: number, y: number): number {
  const { width, height, data, toLinear } = picture;
  const px = x - 0.5;
  const py = y - 0.5;
  if (!(px >= 0 && py >= 0 && px <= width - 1 && py <= height - 1)) return 1;
  const x0 = Math.min(Math.floor(px), width - 2);
  const y0 = Math.min(Math.floor(py), height - 2);
  const fx = px - x0;
  const fy = py - y0;
  let sum = 0;
  for (let c = 0; c < 3; c += 1) {
    const curve = toLinear[c]!;
    const at = (y0 * width + x0) * 3 + c;
    const below = at + 3 * width;
    sum +=
      (curve[data[at]!]! * (1 - fx) + curve[data[at + 3]!]! * fx) * (1 - fy) +
      (curve[data[below]!]! * (1 - fx) + curve[data[below + 3]!]! * fx) * fy;
  }
  return sum / 3;
}

/** Mean of the three channels of one pixel in linear light. */
export function lightOfPixel({ width, data, toLinear }: SampledPicture, x: number, y: number): number {
  const at = 3 * (y * width + x);
  return (toLinear[0][data[at]!]! + toLinear[1][data[at + 1]!]! + toLinear[2][data[at + 2]!]!) / 3;
}

/** Index of the pixel's first sample, or −1 outside the picture. */
export function sampleAt({ width, height }: SampledPicture, x: number, y: number): number {
  const px = Math.floor(x);
  const py = Math.floor(y);
  return px >= 0 && py >= 0 && px < width && py < height ? (py * width + px) * 3 : -1;
}

/** The curve of sRGB (IEC 61966-2-1) for all samples of a depth: what pictures without a profile are taken for. */
export function srgbCurve(bits: 8 | 16): Float32Array {
  const most = 2 ** bits - 1;
  return Float32Array.from({ length: most + 1 }, (_, i) => {
    const v = i / most;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  });
}

export function median(values: readonly number[]): number {
  const own = Float64Array.from(values);
  const middle = own.length >> 1;
  if (own.length === 0) return Number.NaN;
  const upper = smallest(own, own.length, middle);
  return own.length % 2 ? upper : (smallest(own, middle, middle - 1) + upper) / 2;
}

/**
 * The value that stands k-th (from 0) among the first `count` when sorted (Hoare, Commun. ACM 4, 1961). Reorders them;
 * those before place k are then no larger.
 */
export function smallest(values: Float64Array, count: number, k: number): number {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! < pivot) i += 1;
      while (values[j]! > pivot) j -= 1;
      if (i > j) break;
      const kept = values[i]!;
      values[i] = values[j]!;
      values[j] = kept;
      i += 1;
      j -= 1;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else break;
  }
  return values[k]!;
}

/** Of sRGB's primaries (IEC 61966-2-1); for telling light from dark, not for colour. */
export const luminance = (rgb: LinearRgb): number => 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
