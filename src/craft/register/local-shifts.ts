/** Grey of one picture, row by row; values in any unit. */
export interface GreyField {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

/** What one block of the pair says: the photo's pattern lies (dx, dy) further than the artwork's. */
export interface LocalShift {
  /** Middle of the block. */
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
  /** Correlation −1..1 of the two after the shift. */
  readonly alike: number;
  /** Curvature of the fit along its strong and its weak direction, per pixel²; and the strong direction, a unit vector. */
  readonly strong: number;
  readonly weak: number;
  readonly alongX: number;
  readonly alongY: number;
}

export interface ShiftOptions {
  readonly blockPixels: number;
  readonly mostShift: number;
  /** Blocks whose artwork varies less than this (standard deviation) say nothing. */
  readonly leastTexture: number;
}

/**
 * Shifts of block after block by Gauss–Newton on the photo's gradients (Lucas & Kanade, IJCAI 1981), each block set to
 * mean 0 and variance 1, so that local light and fading do not count (as the criterion of Evangelidis & Psarakis, IEEE
 * PAMI 30(10), 2008). Blocks that touch a place where `valid` is 0, or without pattern, are left out.
 */
export function localShifts(
  artwork: GreyField,
  photo: GreyField,
  valid: Uint8Array,
  options: ShiftOptions,
): LocalShift[] {
  const { blockPixels: size, mostShift, leastTexture } = options;
  const { width, height } = artwork;
  const rim = Math.ceil(mostShift) + 2;
  const step = Math.max(4, Math.round(size * 0.75));
  const found: LocalShift[] = [];
  for (let top = rim; top + size + rim <= height; top += step) {
    for (let left = rim; left + size + rim <= width; left += step) {
      if (!isWhole(valid, width, left - rim, top - rim, size + 2 * rim)) continue;
      const shift = shiftOf(artwork, photo, left, top, size, mostShift, leastTexture);
      if (shift) found.push(shift);
    }
  }
  return found;
}

function isWhole(valid: Uint8Array, width: number, left: number, top: number, size: number): boolean {
  // Every second place is enough: what is not valid comes in areas.
  for (let y = top; y < top + size; y += 2) {
    for (let x = left; x < left + size; x += 2) if (!valid[y * width + x]) return false;
  }
  return true;
}

function shiftOf(
  artwork: GreyField,
  photo: GreyField,
  left: number,
  top: number,
  size: number,
  mostShift: number,
  leastTexture: number,
): LocalShift | null {
  const { width } = artwork;
  const n = size * size;
  const a = new Float32Array(n);
  for (let y = 0, i = 0; y < size; y += 1) {
    const row = (top + y) * width + left;
    for (let x = 0; x < size; x += 1, i += 1) a[i] = artwork.data[row + x]!;
  }
  if (standardise(a) < leastTexture) return null;
  let [dx, dy] = [0, 0];
  let alike = 0;
  let [xx, xy, yy] = [0, 0, 0];
  const p = new Float32Array(n);
  const gx = new Float32Array(n);
  const gy = new Float32Array(n);
  for (let round = 0; round < 8; round += 1) {
    gather(photo, left + dx, top + dy, size, p, gx, gy);
    const sd = standardise(p);
    if (!(sd > 0)) return null;
    [xx, xy, yy, alike] = [0, 0, 0, 0];
    let [bx, by] = [0, 0];
    for (let i = 0; i < n; i += 1) {
      const [u, v] = [gx[i]! / sd, gy[i]! / sd];
      const miss = a[i]! - p[i]!;
      xx += u * u;
      xy += u * v;
      yy += v * v;
      bx += u * miss;
      by += v * miss;
      alike += a[i]! * p[i]!;
    }
    alike /= n;
    // A little held back, so that a block of stripes does not slide along them.
    const hold = 0.01 * (xx + yy) + 1e-9;
    const det = (xx + hold) * (yy + hold) - xy * xy;
    const mx = ((yy + hold) * bx - xy * by) / det;
    const my = ((xx + hold) * by - xy * bx) / det;
    dx += mx;
    dy += my;
    if (Math.hypot(dx, dy) > mostShift) return null;
    if (Math.hypot(mx, my) < 0.005) break;
  }
  const half = (xx + yy) / 2;
  const root = Math.hypot((xx - yy) / 2, xy);
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy);
  return {
    x: left + size / 2,
    y: top + size / 2,
    dx,
    dy,
    alike,
    strong: (half + root) / n,
    weak: Math.max(0, half - root) / n,
    alongX: Math.cos(angle),
    alongY: Math.sin(angle),
  };
}

/** To mean 0 and variance 1, in place; answers the standard deviation it had. */
function standardise(v: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < v.length; i += 1) sum += v[i]!;
  const mean = sum / v.length;
  let squares = 0;
  for (let i = 0; i < v.length; i += 1) squares += (v[i]! - mean) ** 2;
  const sd = Math.sqrt(squares / v.length);
  for (let i = 0; i < v.length; i += 1) v[i] = (v[i]! - mean) / (sd || 1);
  return sd;
}

/** A block at a place between pixels, with its slopes by central differences. */
function gather(
  { width, height, data }: GreyField,
  left: number,
  top: number,
  size: number,
  into: Float32Array,
  gx: Float32Array,
  gy: Float32Array,
): void {
  const x0 = Math.min(width - size - 3, Math.max(1, Math.floor(left)));
  const y0 = Math.min(height - size - 3, Math.max(1, Math.floor(top)));
  const fx = left - x0;
  const fy = top - y0;
  const wide = size + 2;
  const block = new Float32Array(wide * wide);
  for (let y = 0, i = 0; y < wide; y += 1) {
    let at = (y0 - 1 + y) * width + x0 - 1;
    for (let x = 0; x < wide; x += 1, i += 1, at += 1) {
      const upper = data[at]! * (1 - fx) + data[at + 1]! * fx;
      const lower = data[at + width]! * (1 - fx) + data[at + width + 1]! * fx;
      block[i] = upper * (1 - fy) + lower * fy;
    }
  }
  for (let y = 0, i = 0; y < size; y += 1) {
    let at = (y + 1) * wide + 1;
    for (let x = 0; x < size; x += 1, i += 1, at += 1) {
      into[i] = block[at]!;
      gx[i] = (block[at + 1]! - block[at - 1]!) / 2;
      gy[i] = (block[at + wide]! - block[at - wide]!) / 2;
    }
  }
}
