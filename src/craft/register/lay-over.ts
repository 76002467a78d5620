import type { GreyField } from './local-shifts.js';
import { placeInPhoto, stretchAt } from './surface-map.js';
import type { SurfaceMap } from './types.js';

/** The photo through the map, at each pixel of a pair so large, and where it shows the piece. */
export function greyThrough(
  source: { readonly width: number; readonly height: number; readonly data: Uint8Array | Float32Array },
  map: SurfaceMap,
  width: number,
  height: number,
): { photo: GreyField; valid: Uint8Array } {
  const data = new Float32Array(width * height);
  const valid = new Uint8Array(width * height);
  eachPlace(map, width, height, source.width, source.height, (to, at, fx, fy) => {
    const { data: from, width: wide } = source;
    const upper = from[at]! * (1 - fx) + from[at + 1]! * fx;
    const lower = from[at + wide]! * (1 - fx) + from[at + wide + 1]! * fx;
    data[to] = upper * (1 - fy) + lower * fy;
    valid[to] = 1;
  });
  return { photo: { width, height, data }, valid };
}

/** The same in colour: bytes of sRGB, three a pixel, to linear light; a pixel burnt out in any channel is not valid. */
export function lightThrough(
  source: { readonly width: number; readonly height: number; readonly data: Uint8Array },
  map: SurfaceMap,
  width: number,
  height: number,
  toLinear: Float32Array,
): { photo: Float32Array; valid: Uint8Array } {
  const photo = new Float32Array(3 * width * height);
  const valid = new Uint8Array(width * height);
  const { data: from, width: wide } = source;
  eachPlace(map, width, height, wide, source.height, (to, at, fx, fy) => {
    const [a, b] = [3 * at, 3 * (at + wide)];
    let most = 0;
    for (let c = 0; c < 3; c += 1) {
      const [p, q, r, s] = [from[a + c]!, from[a + 3 + c]!, from[b + c]!, from[b + 3 + c]!];
      most = Math.max(most, p, q, r, s);
      const upper = toLinear[p]! * (1 - fx) + toLinear[q]! * fx;
      const lower = toLinear[r]! * (1 - fx) + toLinear[s]! * fx;
      photo[3 * to + c] = upper * (1 - fy) + lower * fy;
    }
    valid[to] = most >= 254 ? 0 : 1;
  });
  return { photo, valid };
}

/** Surfaces turned further from the camera than this share of their face-on size are not read. */
const leastFacing = 0.3;

/**
 * Each pixel of the pair that the photo shows: its number, the photo's pixel up and left of where it lies, and how far
 * beyond that. The map is followed exactly at every eighth pixel of a row and straight in between.
 */
function eachPlace(
  map: SurfaceMap,
  width: number,
  height: number,
  photoWidth: number,
  photoHeight: number,
  visit: (to: number, at: number, fx: number, fy: number) => void,
): void {
  const step = 8;
  const middle = facing(map, width, height);
  for (let y = 0; y < height; y += 1) {
    let from = placeInPhoto(map, 0.5, y + 0.5);
    for (let x = 0; x < width; x += step) {
      const next = placeInPhoto(map, x + step + 0.5, y + 0.5);
      const isFacing = map.kind === 'flat' || middle(x + step / 2, y);
      if (isFacing) {
        const end = Math.min(step, width - x);
        for (let i = 0; i < end; i += 1) {
          const px = from.x + ((next.x - from.x) * i) / step - 0.5;
          const py = from.y + ((next.y - from.y) * i) / step - 0.5;
          const x0 = Math.floor(px);
          const y0 = Math.floor(py);
          if (x0 < 0 || y0 < 0 || x0 >= photoWidth - 1 || y0 >= photoHeight - 1) continue;
          visit(y * width + x + i, y0 * photoWidth + x0, px - x0, py - y0);
        }
      }
      from = next;
    }
  }
}

/** Whether a place of a cylinder faces the camera well enough: its area in the photo against the largest there is. */
function facing(map: SurfaceMap, width: number, height: number): (x: number, y: number) => boolean {
  if (map.kind === 'flat') return () => true;
  let most = 0;
  for (let i = 0; i <= 40; i += 1) {
    for (const t of [0.1, 0.5, 0.9]) most = Math.max(most, stretchAt(map, (i / 40) * width, t * height));
  }
  return (x, y) => stretchAt(map, x, y) > leastFacing * most;
}
