import type { EdgeLine, EdgeSamples } from './edge-line.js';
import { normalQuantile } from './normal.js';

/** Light across an edge, finer than pixels: bins of `stepPixels` from `−reach` to `reach`, dark to light, 0 to 1. */
export interface EdgeSpread {
  readonly values: Float64Array;
  readonly stepPixels: number;
}

/** ISO 12233 oversamples four times. */
const stepPixels = 0.25;
/** Share of bins that some pixel falls in; fewer when the edge lies along the pixels' rows, columns or diagonals. */
const leastFilled = 0.7;

/**
 * All pixels by their distance along the edge's normal. Distances are taken along the normal and not along the pixels'
 * rows, which is the correction by the cosine of the edge's angle (Roland, SPIE 9396, 2015, as corrected 2021).
 *
 * @param part of the edge's length that is looked at, −0.5 to 0.5
 * @returns null when too few bins are filled
 */
export function edgeSpread(
  samples: EdgeSamples,
  line: EdgeLine,
  part: readonly [number, number] = [-0.5, 0.5],
): EdgeSpread | null {
  const { count, along, off, light, reachPixels, lengthPixels } = samples;
  const turned = Math.cos(Math.atan2(line.turn, lengthPixels));
  const reach = (reachPixels - Math.abs(line.offset) - Math.abs(line.turn) / 2) * turned;
  const half = Math.floor(reach / stepPixels);
  const bins = 2 * half;
  if (bins < 16) return null;
  const sums = new Float64Array(bins);
  const counts = new Float64Array(bins);
  for (let i = 0; i < count; i += 1) {
    if (line.used[i] === 0 || along[i]! < part[0] || along[i]! > part[1]) continue;
    const d = (off[i]! - line.offset - line.turn * along[i]!) * turned;
    const bin = Math.floor(d / stepPixels) + half;
    if (bin < 0 || bin >= bins) continue;
    sums[bin]! += light[i]!;
    counts[bin]! += 1;
  }
  if (counts.reduce((sum, n) => sum + (n > 0 ? 1 : 0), 0) < leastFilled * bins) return null;
  const raw = filled(sums, counts);
  // A soft edge does not reach its ends within the reach; the fitted step tells of them then.
  const isWithin = line.sigmaPixels < reach / 4;
  const end = Math.max(2, Math.floor(0.3 * half));
  const dark = isWithin ? meanOf(raw.subarray(0, end)) : line.dark;
  const bright = isWithin ? meanOf(raw.subarray(bins - end)) : line.light;
  return bright > dark ? { values: raw.map((v) => (v - dark) / (bright - dark)), stepPixels } : null;
}

/** Bins without a pixel lie on the line between their neighbours. */
function filled(sums: Float64Array, counts: Float64Array): Float64Array {
  const values = sums.map((sum, i) => (counts[i]! > 0 ? sum / counts[i]! : Number.NaN));
  let last = -1;
  for (let i = 0; i <= values.length; i += 1) {
    if (i < values.length && Number.isNaN(values[i]!)) continue;
    for (let k = last + 1; k < i; k += 1) {
      const from = last >= 0 ? values[last]! : values[i]!;
      const to = i < values.length ? values[i]! : from;
      values[k] = from + ((to - from) * (k - last)) / (i - last);
    }
    last = i;
  }
  return values;
}

/** From a tenth to nine tenths of the step, pixels; null when it is not reached. */
export function riseWidthPixels({ values, stepPixels: step }: EdgeSpread): number | null {
  const rising = isotonic(values);
  const low = crossing(rising, 0.1);
  const high = crossing(rising, 0.9);
  return low === null || high === null || high <= low ? null : (high - low) * step;
}

/** Between bins on the scale on which a Gaussian's integral is straight: a chord would make sharp edges softer. */
function crossing(values: Float64Array, level: number): number | null {
  for (let i = 0; i + 1 < values.length; i += 1) {
    if (!(values[i]! <= level && values[i + 1]! > level)) continue;
    const [here, next] = [normalQuantile(values[i]!), normalQuantile(values[i + 1]!)];
    return i + (normalQuantile(level) - here) / (next - here);
  }
  return null;
}

/** Never falling, by pooling neighbours that do (Ayer et al., Ann. Math. Stat. 26, 1955): noise crosses no level twice. */
function isotonic(values: Float64Array): Float64Array {
  const blocks: { sum: number; count: number }[] = [];
  for (const v of values) {
    blocks.push({ sum: v, count: 1 });
    for (;;) {
      const [before, last] = [blocks.at(-2), blocks.at(-1)!];
      if (!before || before.sum / before.count <= last.sum / last.count) break;
      blocks.splice(-2, 2, { sum: before.sum + last.sum, count: before.count + last.count });
    }
  }
  return Float64Array.from(
    blocks.flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count)),
  );
}

/** Share of the line spread's window that is flat (Tukey's window with a half, as ISO 12233:2023; from memory). */
const flatShare = 0.5;
const frequencyStep = 0.0025;

/**
 * Cycles a pixel at which half the contrast is left: the edge's slope, windowed, as a Fourier sum; what differences
 * and bins take away themselves is put back (ISO 12233, e-SFR). The picture's own pixels and optics are part of it.
 */
export function mtf50PerPixel({ values, stepPixels: step }: EdgeSpread): number | null {
  const n = values.length;
  const slope = new Float64Array(n);
  for (let i = 1; i + 1 < n; i += 1) slope[i] = (values[i + 1]! - values[i - 1]!) / (2 * step);
  const half = n / 2;
  for (let i = 0; i < n; i += 1) {
    const out = Math.abs(i + 0.5 - half) / half;
    if (out > flatShare) slope[i]! *= 0.5 * (1 + Math.cos((Math.PI * (out - flatShare)) / (1 - flatShare)));
  }
  const whole = Math.abs(slope.reduce((sum, v) => sum + v, 0));
  if (!(whole > 0)) return null;
  let before = 1;
  for (let f = frequencyStep; f < 1; f += frequencyStep) {
    let re = 0;
    let im = 0;
    for (let i = 0; i < n; i += 1) {
      const phase = 2 * Math.PI * f * i * step;
      re += slope[i]! * Math.cos(phase);
      im += slope[i]! * Math.sin(phase);
    }
    const contrast = Math.hypot(re, im) / whole / (sinc(2 * f * step) * sinc(f * step));
    if (contrast < 0.5) return f - (frequencyStep * (0.5 - contrast)) / (before - contrast);
    before = contrast;
  }
  return null;
}

const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));
const meanOf = (values: Float64Array): number => values.reduce((sum, v) => sum + v, 0) / values.length;
