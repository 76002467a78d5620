import { inverseCurveFunction } from './curve.js';
import { linkFunction } from './evaluate-link.js';
import { type InputSpacing, inputSpacings } from './input-spacing.js';
import type { GridLink } from './link.js';
import { testColours } from './test-colours.js';
import { createTransform } from './transform.js';
import type { Transform, TransformOptions } from './types.js';

/** A link is good enough when its error, in 8-bit codes, is at most this on average and for 999 colours of 1000. */
const wantedMean = 0.5;
const wantedP999 = 1;

/** Grid sizes tried, by source channels. 4081 puts a grey point on every 8-bit code and 15 between. */
const sizes: Readonly<Record<1 | 3 | 4, readonly number[]>> = { 1: [4081], 3: [33, 49, 65], 4: [17, 23] };

interface Tried {
  readonly link: GridLink;
  readonly p999: number;
}

/** Grows the grid until the error against the exact chain, at colours off the grid, is small; keeps the best otherwise. */
export function buildGrid(options: TransformOptions): GridLink {
  const exact = createTransform(options);
  const channels = exact.inputChannels as 1 | 3 | 4;
  const colours = testColours(channels, channels === 1 ? 2000 : 6000);
  const wanted = colours.map((colour) => exact.convert(colour));
  let best: Tried | undefined;
  let spacings = inputSpacings(options.source, options.intent);
  for (const points of sizes[channels]) {
    let bestHere: Tried | undefined;
    let spacingHere: InputSpacing = null;
    for (const spacing of spacings) {
      const tried = measure(fillGrid(exact, channels, points, spacing), colours, wanted);
      if (bestHere === undefined || tried.p999 < bestHere.p999) {
        bestHere = tried;
        spacingHere = spacing;
      }
    }
    spacings = [spacingHere]; // the better spacing at one size is taken to be the better at the next
    if (bestHere !== undefined && (best === undefined || bestHere.p999 < best.p999)) best = bestHere;
    if (best !== undefined && best.link.error8.mean <= wantedMean && best.p999 <= wantedP999) break;
  }
  return best!.link;
}

function fillGrid(
  exact: Transform,
  channels: 1 | 3 | 4,
  gridPoints: number,
  spacing: InputSpacing,
): GridLink {
  const axes = Array.from({ length: channels }, (_, c) => {
    const curve = spacing?.[c];
    const last = gridPoints - 1;
    if (curve === undefined) return Float64Array.from({ length: gridPoints }, (__, i) => i / last);
    const back = inverseCurveFunction({ kind: 'sampled', values: Float64Array.from(curve) });
    return Float64Array.from({ length: gridPoints }, (__, i) => (i === last ? 1 : back(i / last)));
  });
  const count = gridPoints ** channels;
  const table = new Uint16Array(count * 3);
  const index = new Int32Array(channels);
  const input = new Float64Array(channels);
  const output = new Float64Array(3);
  for (let node = 0; node < count; node += 1) {
    for (let c = 0; c < channels; c += 1) input[c] = axes[c]![index[c]!]!;
    exact.convert(input, output);
    for (let o = 0; o < 3; o += 1) table[node * 3 + o] = Math.round(output[o]! * 65535);
    for (let c = channels - 1; c >= 0; c -= 1) {
      index[c] = index[c]! + 1;
      if (index[c]! < gridPoints) break;
      index[c] = 0;
    }
  }
  return {
    kind: 'grid',
    inputChannels: channels,
    gridPoints,
    inputCurves: spacing,
    table,
    error8: { mean: 0, max: 0 },
  };
}

function measure(link: GridLink, colours: readonly Float64Array[], wanted: readonly Float64Array[]): Tried {
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
  return { link: { ...link, error8 }, p999: worst[Math.ceil(0.999 * worst.length) - 1] ?? 0 };
}
