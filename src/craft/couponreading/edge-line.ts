import { lightOfPixel, type SampledPicture } from '#craft/patchreading';
import type { Point } from '#craft/reading';
import { normalCdf, normalDensity } from './normal.js';
import { solveDamped } from './solve-damped.js';

/** Pixels on both sides of an edge. */
export interface EdgeSamples {
  readonly count: number;
  /** Along the edge, −0.5 to 0.5. */
  readonly along: Float64Array;
  /** From the expected line, pixels, towards the light side. */
  readonly off: Float64Array;
  readonly light: Float64Array;
  readonly lengthPixels: number;
  readonly reachPixels: number;
  /** Angle of the expected line to the picture's rows, radians. */
  readonly angle: number;
}

/** Where the edge really is, with the step of light across it taken as a Gaussian's integral. */
export interface EdgeLine {
  /** Offset in the middle and its change from one end to the other, pixels. */
  readonly offset: number;
  readonly turn: number;
  readonly sigmaPixels: number;
  readonly dark: number;
  readonly light: number;
  /** 1 = used; dust and scratches are not. */
  readonly used: Uint8Array;
}

/**
 * Every pixel whose middle lies between the ends of an edge and no further from it than the reach.
 * @param dark a place on the dark side
 * @returns null when part of it lies outside the picture
 */
export function edgeSamples(
  picture: SampledPicture,
  from: Point,
  to: Point,
  dark: Point,
  reachPixels: number,
): EdgeSamples | null {
  const lengthPixels = Math.hypot(to.x - from.x, to.y - from.y);
  const u = { x: (to.x - from.x) / lengthPixels, y: (to.y - from.y) / lengthPixels };
  let n = { x: -u.y, y: u.x };
  if ((dark.x - from.x) * n.x + (dark.y - from.y) * n.y > 0) n = { x: -n.x, y: -n.y };
  const xs = [from, to].flatMap(({ x }) => [x - reachPixels * n.x, x + reachPixels * n.x]);
  const ys = [from, to].flatMap(({ y }) => [y - reachPixels * n.y, y + reachPixels * n.y]);
  const [left, right] = [Math.floor(Math.min(...xs)), Math.ceil(Math.max(...xs))];
  const [top, bottom] = [Math.floor(Math.min(...ys)), Math.ceil(Math.max(...ys))];
  if (!(left >= 0 && top >= 0 && right <= picture.width && bottom <= picture.height)) return null;
  const most = (right - left) * (bottom - top);
  const along = new Float64Array(most);
  const off = new Float64Array(most);
  const light = new Float64Array(most);
  let count = 0;
  for (let y = top; y < bottom; y += 1) {
    for (let x = left; x < right; x += 1) {
      const [dx, dy] = [x + 0.5 - from.x, y + 0.5 - from.y];
      const t = (dx * u.x + dy * u.y) / lengthPixels;
      const d = dx * n.x + dy * n.y;
      if (t < 0 || t > 1 || Math.abs(d) > reachPixels) continue;
      along[count] = t - 0.5;
      off[count] = d;
      light[count] = lightOfPixel(picture, x, y);
      count += 1;
    }
  }
  return { count, along, off, light, lengthPixels, reachPixels, angle: Math.atan2(u.y, u.x) };
}

/** Fewer pixels than this across the reach tell nothing of an edge. */
const leastPixels = 200;
/** The step must be so large a share of the light side. */
const leastContrast = 0.15;
const rounds = 25;

/**
 * The line by least squares over all pixels at once (Levenberg, Q. Appl. Math. 2, 1944), dust left out in a second run.
 * @returns null when there is no clear edge
 */
export function fitEdgeLine(samples: EdgeSamples): EdgeLine | null {
  if (samples.count < leastPixels) return null;
  const used = new Uint8Array(samples.count).fill(1);
  let start = firstGuess(samples);
  if (!start) return null;
  for (let pass = 0; pass < 2; pass += 1) {
    start = levenberg(samples, used, start);
    const contrast = start[4]! - start[3]!;
    if (!(contrast > leastContrast * Math.max(1e-3, start[4]!))) return null;
    const left = residuals(samples, start);
    const spread = 1.4826 * medianOf(left.map(Math.abs));
    const far = Math.max(5 * spread, 0.12 * contrast);
    for (let i = 0; i < samples.count; i += 1) used[i] = Math.abs(left[i]!) > far ? 0 : 1;
  }
  const [offset, turn, logSigma, dark, light] = start as [number, number, number, number, number];
  if (Math.abs(offset) + Math.abs(turn) / 2 > 0.6 * samples.reachPixels) return null;
  return { offset, turn, sigmaPixels: Math.exp(logSigma), dark, light, used };
}

const slabs = 8;

/** By the dark share of each slab across the edge: the line, however soft the edge. */
function firstGuess({ count, along, off, light, reachPixels }: EdgeSamples): number[] | null {
  const far = 0.75 * reachPixels;
  const darks: number[] = [];
  const lights: number[] = [];
  for (let i = 0; i < count; i += 1) {
    if (off[i]! < -far) darks.push(light[i]!);
    else if (off[i]! > far) lights.push(light[i]!);
  }
  if (darks.length < 10 || lights.length < 10) return null;
  const [dark, bright] = [medianOf(Float64Array.from(darks)), medianOf(Float64Array.from(lights))];
  if (!(bright > dark)) return null;
  const sums = new Float64Array(slabs);
  const counts = new Float64Array(slabs);
  for (let i = 0; i < count; i += 1) {
    const slab = Math.min(slabs - 1, Math.floor((along[i]! + 0.5) * slabs));
    sums[slab]! += Math.min(1, Math.max(0, (bright - light[i]!) / (bright - dark)));
    counts[slab]! += 1;
  }
  if (counts.some((n) => n === 0)) return null;
  const offs = Array.from(sums, (sum, k) => reachPixels * ((2 * sum) / counts[k]! - 1));
  // Theil and Sen: the median of all slopes; a speck in one slab does no harm.
  const slopes: number[] = [];
  for (let i = 0; i < slabs; i += 1) {
    for (let j = i + 1; j < slabs; j += 1) slopes.push(((offs[j]! - offs[i]!) * slabs) / (j - i));
  }
  const turn = medianOf(Float64Array.from(slopes));
  const offset = medianOf(Float64Array.from(offs, (off, k) => off - turn * ((k + 0.5) / slabs - 0.5)));
  return [offset, turn, Math.log(1.2), dark, bright];
}

function residuals({ count, along, off, light }: EdgeSamples, params: readonly number[]): Float64Array {
  const [offset, turn, logSigma, dark, bright] = params as [number, number, number, number, number];
  const sigma = Math.exp(logSigma);
  const left = new Float64Array(count);
  for (let i = 0; i < count; i += 1) {
    const z = (off[i]! - offset - turn * along[i]!) / sigma;
    left[i] = light[i]! - dark - (bright - dark) * normalCdf(z);
  }
  return left;
}

function levenberg(samples: EdgeSamples, used: Uint8Array, start: readonly number[]): number[] {
  const { count, along, off } = samples;
  const squares = (left: Float64Array): number => left.reduce((sum, r, i) => sum + (used[i] ? r * r : 0), 0);
  let params = [...start];
  let left = residuals(samples, params);
  let best = squares(left);
  let damping = 1e-3;
  for (let round = 0; round < rounds; round += 1) {
    const [offset, turn, logSigma, dark, bright] = params as [number, number, number, number, number];
    const sigma = Math.exp(logSigma);
    const normal = new Float64Array(25);
    const right = new Float64Array(5);
    for (let i = 0; i < count; i += 1) {
      if (!used[i]) continue;
      const z = (off[i]! - offset - turn * along[i]!) / sigma;
      const slope = (bright - dark) * normalDensity(z);
      const share = normalCdf(z);
      const row = [-slope / sigma, (-slope * along[i]!) / sigma, -slope * z, 1 - share, share];
      for (let a = 0; a < 5; a += 1) {
        right[a]! += row[a]! * left[i]!;
        for (let b = 0; b <= a; b += 1) normal[5 * a + b]! += row[a]! * row[b]!;
      }
    }
    const step = solveDamped(normal, right, damping);
    if (!step) break;
    const next = params.map((v, k) => v + step[k]!);
    next[2] = Math.min(Math.log(samples.reachPixels), Math.max(Math.log(0.15), next[2]!));
    const nextLeft = residuals(samples, next);
    const now = squares(nextLeft);
    if (now < best) {
      const isDone = best - now < 1e-9 * best;
      params = next;
      left = nextLeft;
      best = now;
      damping = Math.max(1e-9, damping / 10);
      if (isDone) break;
    } else {
      damping *= 10;
      if (damping > 1e6) break;
    }
  }
  return params;
}

function medianOf(values: Float64Array): number {
  const sorted = values.slice().sort();
  return sorted.length === 0 ? 0 : sorted[sorted.length >> 1]!;
}
