import type { Picture } from './picture.js';

/** Gaussian blur, σ in pixels; edges repeat. */
export function blurred(picture: Picture, sigma: number): Picture {
  if (sigma < 0.1) return picture;
  const reach = Math.max(1, Math.ceil(3 * sigma));
  const kernel = Float32Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-0.5 * ((i - reach) / sigma) ** 2),
  );
  const sum = kernel.reduce((total, v) => total + v, 0);
  kernel.forEach((v, i) => {
    kernel[i] = v / sum;
  });
  const { width, height } = picture;
  const across = pass(picture.data, height, width, width * 3, 3, kernel, reach);
  return { ...picture, data: pass(across, width, height, 3, width * 3, kernel, reach) };
}

function pass(
  from: Float32Array,
  lines: number,
  count: number,
  lineStep: number,
  step: number,
  kernel: Float32Array,
  reach: number,
): Float32Array {
  const to = new Float32Array(from.length);
  for (let line = 0; line < lines; line += 1) {
    for (let i = 0; i < count; i += 1) {
      let r = 0;
      let g = 0;
      let b = 0;
      for (let k = -reach; k <= reach; k += 1) {
        const at = line * lineStep + Math.min(count - 1, Math.max(0, i + k)) * step;
        const w = kernel[k + reach]!;
        r += w * from[at]!;
        g += w * from[at + 1]!;
        b += w * from[at + 2]!;
      }
      const at = line * lineStep + i * step;
      to[at] = r;
      to[at + 1] = g;
      to[at + 2] = b;
    }
  }
  return to;
}

/**
 * A new picture whose pixel at (x, y) (centres at .5) shows what stands at `source(x, y)` in the old one; outside
 * it, `beyond`. Blur first when shrinking.
 */
export function warped(
  picture: Picture,
  size: { readonly width: number; readonly height: number; readonly ppi: number },
  source: (x: number, y: number) => readonly [number, number],
  beyond: (x: number, y: number) => readonly number[],
): Picture {
  const data = new Float32Array(size.width * size.height * 3);
  const { width, height, data: from } = picture;
  for (let y = 0, at = 0; y < size.height; y += 1) {
    for (let x = 0; x < size.width; x += 1, at += 3) {
      const [sx, sy] = source(x + 0.5, y + 0.5);
      if (!(sx >= 0 && sy >= 0 && sx <= width && sy <= height)) {
        const [r, g, b] = beyond(x, y);
        data[at] = r!;
        data[at + 1] = g!;
        data[at + 2] = b!;
        continue;
      }
      const px = Math.min(Math.max(sx - 0.5, 0), width - 1);
      const py = Math.min(Math.max(sy - 0.5, 0), height - 1);
      const x0 = Math.floor(px);
      const y0 = Math.floor(py);
      const fx = px - x0;
      const fy = py - y0;
      const x1 = Math.min(x0 + 1, width - 1);
      const y1 = Math.min(y0 + 1, height - 1);
      for (let c = 0; c < 3; c += 1) {
        const top = from[(y0 * width + x0) * 3 + c]! * (1 - fx) + from[(y0 * width + x1) * 3 + c]! * fx;
        const bottom = from[(y1 * width + x0) * 3 + c]! * (1 - fx) + from[(y1 * width + x1) * 3 + c]! * fx;
        data[at + c] = top * (1 - fy) + bottom * fy;
      }
    }
  }
  return { ...size, data };
}

/** The same at fewer pixels per inch, softened so that nothing beats with the coarser grid. */
export function smaller(picture: Picture, ppi: number): Picture {
  const ratio = picture.ppi / ppi;
  const size = { width: Math.round(picture.width / ratio), height: Math.round(picture.height / ratio), ppi };
  const soft = blurred(picture, 0.5 * (ratio - 0.6));
  return warped(
    soft,
    size,
    (x, y) => [x * ratio, y * ratio],
    () => [0, 0, 0],
  );
}
