import { cellBends } from './cell-bends.js';
import { inverseCurveFunction } from './curve.js';
import { linkFunction } from './evaluate-link.js';
import { type InputSpacing, inputSpacings } from './input-spacing.js';
import type { GridLink } from './link.js';
import { refineGrid } from './refine-grid.js';
import { seeded } from './seeded.js';
import { testColours } from './test-colours.js';
import { createTransform } from './transform.js';
import type { Transform, TransformOptions } from './types.js';

/** A link is good enough when its error, in 8-bit codes, is at most this on average and for 999 colours of 1000. */
const wantedMean = 0.5;
const wantedP999 = 1;

/**
 * Grid sizes tried, by source channels. 17 and 33 share their points with the 9-point grids usual in CMYK profiles; 4081
 * puts a grey point on every 8-bit code and 15 between.
 */
const sizes: Readonly<Record<1 | 3 | 4, readonly number[]>> = {
  1: [4081],
  3: [33, 49, 65, 81],
  4: [17, 33],
};

interface Tried {
  readonly sampled: SampledGrid;
  readonly link: GridLink;
  readonly p999: number;
}

/** A grid before it is rounded to 16 bits. */
interface SampledGrid {
  readonly channels: 1 | 3 | 4;
  readonly gridPoints: number;
  readonly spacing: InputSpacing;
  readonly unplace: readonly ((place: number) => number)[];
  readonly values: Float32Array;
}

/** Grows the grid until the error against the exact chain, at colours off the grid, is small; keeps the best otherwise. */
export function buildGrid(options: TransformOptions): GridLink {
  const exact = createTransform(options);
  const channels = exact.inputChannels as 1 | 3 | 4;
  const colours = testColours(channels, channels === 1 ? 2000 : 6000);
  const wanted = colours.map((colour) => exact.convert(colour));
  const good = (tried: Tried): boolean => tried.link.error8.mean <= wantedMean && tried.p999 <= wantedP999;
  const judge: Judge = (sampled, bends) => measure(toLink(sampled, bends), sampled, colours, wanted);
  let best: Tried | undefined;
  let spacings = inputSpacings(options.source, options.intent);
  for (const points of sizes[channels]) {
    // Beside kinks the error falls with the spacing; a size that will not do by that is passed over for the next.
    const isLast = points === sizes[channels].at(-1);
    if (best !== undefined && !isLast && (best.p999 * best.sampled.gridPoints) / points > wantedP999)
      continue;
    let bestHere: Tried | undefined;
    for (const spacing of spacings) {
      const tried = judge(sampleGrid(exact, channels, points, spacing));
      if (bestHere === undefined || tried.p999 < bestHere.p999) bestHere = tried;
    }
    if (bestHere === undefined) break;
    spacings = [bestHere.sampled.spacing]; // the better spacing at one size is taken to be the better at the next
    if (best === undefined || bestHere.p999 < best.p999) best = bestHere;
    if (good(best)) return best.link;
  }
  return channels === 4 ? withBends(best!, options, judge).link : refined(best!, exact, judge).link;
}

type Judge = (sampled: SampledGrid, bends?: NonNullable<GridLink['bends']>) => Tried;

/** A bend, in 8-bit codes of second difference, from which a cell's colours are worked out exactly. */
const bendTooSharp = 2;

function withBends({ sampled }: Tried, chain: TransformOptions, judge: Judge): Tried {
  const cells = new Uint8Array(Math.ceil(sampled.gridPoints ** 4 / 8));
  cellBends(sampled).forEach((bend, cell) => {
    if (bend >= bendTooSharp) cells[cell >> 3] = cells[cell >> 3]! | (1 << (cell & 7));
  });
  return judge(sampled, { cells, chain });
}

function refined(best: Tried, exact: Transform, judge: Judge): Tried {
  const { channels, gridPoints, unplace, values } = best.sampled;
  if (channels !== 3) return best;
  const moved = { ...best.sampled, values: values.slice() };
  refineGrid({ channels, gridPoints, unplace, values: moved.values }, exact, seeded(0x5e77));
  const tried = judge(moved);
  return tried.p999 < best.p999 ? tried : best;
}

function sampleGrid(
  exact: Transform,
  channels: 1 | 3 | 4,
  gridPoints: number,
  spacing: InputSpacing,
): SampledGrid {
  const last = gridPoints - 1;
  const unplace = Array.from({ length: channels }, (_, c): ((place: number) => number) => {
    const curve = spacing?.[c];
    if (curve === undefined) return (place) => place;
    return inverseCurveFunction({ kind: 'sampled', values: Float64Array.from(curve) });
  });
  const axes = unplace.map((f) =>
    Float64Array.from({ length: gridPoints }, (_, i) => (i === last ? 1 : f(i / last))),
  );
  const count = gridPoints ** channels;
  const values = new Float32Array(count * 3);
  const index = new Int32Array(channels);
  const input = new Float64Array(channels);
  const output = new Float64Array(3);
  for (let node = 0; node < count; node += 1) {
    for (let c = 0; c < channels; c += 1) input[c] = axes[c]![index[c]!]!;
    exact.convert(input, output);
    values.set(output, node * 3);
    for (let c = channels - 1; c >= 0; c -= 1) {
      index[c] = index[c]! + 1;
      if (index[c]! < gridPoints) break;
      index[c] = 0;
    }
  }
  return { channels, gridPoints, spacing, unplace, values };
}

function toLink({ channels, gridPoints, spacing, values }: SampledGrid, bends?: GridLink['bends']): GridLink {
  const table = Uint16Array.from(values, (v) => Math.round(v * 65535));
  return {
    kind: 'grid',
    inputChannels: channels,
    gridPoints,
    inputCurves: spacing,
    table,
    error8: { mean: 0, max: 0 },
    ...(bends === undefined ? {} : { bends }),
  };
}

function measure(
  link: GridLink,
  sampled: SampledGrid,
  colours: readonly Float64Array[],
  wanted: readonly Float64Array[],
): Tried {
  const run = linkFunction(link);
  const output = new Float64Array(3);
  const worst = new Float64Array(colours.length);
  let sum = 0;
  colours.forEach((colour, i) => {
    run(colour, output);
    const truth = wanted[i]!;
    for (let o = 0; o < 3; o += 1) {
      const error = Math.abs(output[o]! - truth[o]!) * 255;
      sum += error;
      if (error > worst[i]!) worst[i] = error;
    }
  });
  worst.sort();
  const error8 = { mean: sum / (3 * colours.length), max: worst[worst.length - 1] ?? 0 };
  return { sampled, link: { ...link, error8 }, p999: worst[Math.ceil(0.999 * worst.length) - 1] ?? 0 };
}
