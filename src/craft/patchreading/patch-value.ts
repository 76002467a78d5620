import { mapPoint, type Point, type SheetPose } from '#craft/reading';
import type { RectMm } from '#craft/sheet';
import type { ChartLayout, SheetMaterial } from '#craft/testsheet';
import { sdOfBlocks } from './block-noise.js';
import { median, smallest } from './picture.js';
import { derivativeAt, pixelsPerMm } from './sheet-map.js';
import type { LinearRgb, PatchWarning, SampledPicture } from './types.js';

export interface PatchValue {
  readonly rgb: LinearRgb;
  readonly sd: LinearRgb;
  /** Standard deviation of `rgb`, from how the parts of the patch differ: grain and mottle larger than pixels count. */
  readonly sdOfMean: LinearRgb;
  readonly pixels: number;
  readonly usedShare: number;
  readonly warnings: readonly PatchWarning[];
  readonly outline: readonly Point[];
}

/** Kept clear of the edges, mm: ink spreads (about 0.2 mm, common practice) and cloth frays its edges more. */
const clearMm = { hard: 0.6, fabric: 1.1 } as const;
/** And in pixels of the picture, for the reader's own softness. */
const clearPixels = 2.2;
/** At least this share of the side is looked at. */
const leastShare = 0.4;
/** Samples along a side; more tell nothing more. */
const mostSamples = 40;
/** A pixel further than so many standard deviations (by the median of deviations) from the median is left out. */
const farSds = 3.5;

/** The middle of a patch, sampled. */
interface Samples {
  /** Samples along a row; there are as many rows as `channels` hold. */
  readonly n: number;
  readonly channels: readonly Float64Array[];
  readonly clipped: number;
  readonly dark: number;
  readonly outline: readonly Point[];
}

/**
 * Robust mean of a patch's middle in linear light: pixels far from the median in any channel are left out (dust,
 * threads, glints), what is left is averaged, so that weave and grain come out at their true mean.
 * @param rect where the sheet has it, mm
 * @param shift how far it has moved from its place, mm
 * @param grain of the whole picture, from `grainOf`
 * @returns null when the patch is not wholly in the picture
 */
export function patchValue(
  picture: SampledPicture,
  layout: { readonly material: SheetMaterial },
  pose: Pick<SheetPose, 'toPicture'>,
  rect: RectMm,
  shift: Point,
  grain: number,
): PatchValue | null {
  const samples = sampled(picture, layout, pose, rect, shift);
  if (!samples) return null;
  const { n, channels, clipped, dark, outline } = samples;
  const pixels = channels[0]!.length;
  const used = withoutStrays(channels, grain);
  const mean = channels.map((values) => meanOf(values, used)) as unknown as LinearRgb;
  const sd = channels.map((values, c) => sdOf(values, used, mean[c]!)) as unknown as LinearRgb;
  const count = used.reduce((sum, one) => sum + one, 0);
  const warnings: PatchWarning[] = [];
  if (clipped > 0.05 * pixels) warnings.push('clipped');
  if (dark > 0.5 * pixels) warnings.push('too-dark');
  if (count < 0.75 * pixels) warnings.push('specks');
  if (pixels < 64) warnings.push('few-pixels');
  if (isUneven(channels, used, n, mean, sd)) warnings.push('uneven');
  const sdOfMean = channels.map((values) => sdOfBlocks(values, used, n)) as unknown as LinearRgb;
  return { rgb: mean, sd, sdOfMean, pixels, usedShare: count / pixels, warnings, outline };
}

/** Patches looked at for the grain: dust spoils a few of them, not their median. */
const grainPatches = 60;

/**
 * How coarse the picture is as a whole (noise, weave, a lossy file's ripple): the middle four fifths of a patch's
 * pixels against what one step of 8 bits would spread them. At least 1.
 */
export function grainOf(
  picture: SampledPicture,
  layout: ChartLayout,
  pose: SheetPose,
  shifts: readonly Point[],
): number {
  const every = Math.max(1, Math.floor(layout.patches.length / grainPatches));
  const ratios = layout.patches.flatMap((patch, i) => {
    const samples = i % every === 0 ? sampled(picture, layout, pose, patch.rect, shifts[i]!) : null;
    if (!samples) return [];
    return samples.channels.map((values) => {
      const at = (share: number): number =>
        smallest(values, values.length, Math.floor(share * (values.length - 1)));
      // The middle four fifths of a normal distribution are 2.563 standard deviations wide.
      return (at(0.9) - at(0.1)) / 2.563 / stepAt(at(0.5));
    });
  });
  return ratios.length > 0 ? Math.max(1, median(ratios)) : 1;
}

/** A step of 8 bits is about 0.0003 in the shadows and 0.009 in the lights; a little more, for lossy files. */
const stepAt = (v: number): number => 0.0008 + 0.012 * v;

function sampled(
  picture: SampledPicture,
  layout: { readonly material: SheetMaterial },
  pose: Pick<SheetPose, 'toPicture'>,
  rect: RectMm,
  shift: Point,
): Samples | null {
  const centre = { x: rect.xMm + rect.widthMm / 2 + shift.x, y: rect.yMm + rect.heightMm / 2 + shift.y };
  const scale = pixelsPerMm(derivativeAt(pose.toPicture, centre));
  const clear = Math.max(clearMm[layout.material], clearPixels / scale);
  const halfOf = (side: number): number => Math.max((leastShare * side) / 2, side / 2 - clear);
  const samplesIn = (half: number): number =>
    Math.min(mostSamples, Math.max(4, Math.round(2 * half * scale)));
  const [halfX, halfY] = [halfOf(rect.widthMm), halfOf(rect.heightMm)];
  const [n, rows] = [samplesIn(halfX), samplesIn(halfY)];
  const count = n * rows;
  const channels = [0, 1, 2].map(() => new Float64Array(count));
  const [reds, greens, blues] = channels as [Float64Array, Float64Array, Float64Array];
  const { data, width, height, toLinear } = picture;
  const [red, green, blue] = toLinear;
  const most = red.length - 1;
  let clipped = 0;
  let dark = 0;
  // mapPoint written out: every value of every patch passes here.
  const map = pose.toPicture;
  for (let j = 0, k = 0; j < rows; j += 1) {
    const y = centre.y + halfY * ((j + 0.5) * (2 / rows) - 1);
    for (let i = 0; i < n; i += 1, k += 1) {
      const x = centre.x + halfX * ((i + 0.5) * (2 / n) - 1);
      const w = map[6] * x + map[7] * y + map[8];
      const px = Math.floor((map[0] * x + map[1] * y + map[2]) / w);
      const py = Math.floor((map[3] * x + map[4] * y + map[5]) / w);
      if (!(px >= 0 && py >= 0 && px < width && py < height)) return null;
      const sample = 3 * (py * width + px);
      const r = data[sample]!;
      const g = data[sample + 1]!;
      const b = data[sample + 2]!;
      if (r === most || g === most || b === most) clipped += 1;
      if (r + g + b === 0) dark += 1;
      reds[k] = red[r]!;
      greens[k] = green[g]!;
      blues[k] = blue[b]!;
    }
  }
  const outline = [
    [-halfX, -halfY],
    [halfX, -halfY],
    [halfX, halfY],
    [-halfX, halfY],
  ].map(([u, v]) => mapPoint(pose.toPicture, { x: centre.x + u!, y: centre.y + v! }));
  return { n, channels, clipped, dark, outline };
}

/** Of very many pixels, every third tells the median and the deviations well enough. */
const manyPixels = 900;

/** 1 = used. The medians are taken twice, the second time without the strays of the first. */
function withoutStrays(channels: readonly Float64Array[], grain: number): Uint8Array {
  const count = channels[0]!.length;
  const every = count > manyPixels ? 3 : 1;
  const kept = new Float64Array(count);
  let used = new Uint8Array(count).fill(1);
  for (let round = 0; round < 2; round += 1) {
    const next = new Uint8Array(count).fill(1);
    for (const values of channels) {
      let n = 0;
      for (let i = 0; i < count; i += every) {
        if (used[i] === 1) {
          kept[n] = values[i]!;
          n += 1;
        }
      }
      const middle = smallest(kept, n, n >> 1);
      for (let i = 0; i < n; i += 1) kept[i] = Math.abs(kept[i]! - middle);
      const spread = 1.4826 * smallest(kept, n, n >> 1);
      const far = farSds * Math.max(spread, grain * stepAt(middle));
      for (let i = 0; i < count; i += 1) if (Math.abs(values[i]! - middle) > far) next[i] = 0;
    }
    used = next;
  }
  return used;
}

function meanOf(values: Float64Array, used: Uint8Array): number {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < values.length; i += 1) {
    if (used[i] === 0) continue;
    sum += values[i]!;
    count += 1;
  }
  return sum / Math.max(1, count);
}

function sdOf(values: Float64Array, used: Uint8Array, mean: number): number {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < values.length; i += 1) {
    if (used[i] === 0) continue;
    sum += (values[i]! - mean) ** 2;
    count += 1;
  }
  return Math.sqrt(sum / Math.max(1, count - 1));
}

/** One quarter differs from another by more than grain explains and enough to matter. */
function isUneven(
  channels: readonly Float64Array[],
  used: Uint8Array,
  n: number,
  mean: LinearRgb,
  sd: LinearRgb,
): boolean {
  return channels.some((values, c) => {
    const sums = [0, 0, 0, 0];
    const counts = [0, 0, 0, 0];
    for (let i = 0; i < values.length; i += 1) {
      if (used[i] === 0) continue;
      const quarter = (i % n < n / 2 ? 0 : 1) + (i < values.length / 2 ? 0 : 2);
      sums[quarter]! += values[i]!;
      counts[quarter]! += 1;
    }
    // A quarter that is nearly all strays is itself a sign.
    if (counts.some((count) => count < 0.02 * values.length)) return true;
    const means = sums.map((sum, q) => sum / counts[q]!);
    const difference = Math.max(...means) - Math.min(...means);
    const chance = (sd[c]! * 6) / Math.sqrt(values.length / 4);
    return difference > chance + 0.01 + 0.12 * mean[c]!;
  });
}
