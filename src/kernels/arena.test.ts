import { readFileSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { attachKernel, createArena } from './arena.js';
import type { DeviceLink, ShaperLink } from './link-shape.js';
import { applyLinkPlain, evaluateLink, readCurve } from './plain.js';
import { noiseGrid, pressLikeGrid, seeded, shaperLink } from './testing/links.js';
import type { SampleBits } from './types.js';

const module = new WebAssembly.Module(readFileSync('dist/kernels/pixels.wasm'));

const identity: DeviceLink = { kind: 'identity', inputChannels: 3 };
// Rows that reach outside 0..1 on both sides.
const matrix = [1.4, -0.35, -0.05, -0.07, 1.1, -0.03, 0.02, -0.12, 1.1];

/** Half a code for rounding, and what the loop's number formats can add (in codes). */
function tolerance(link: DeviceLink, bits: SampleBits): number {
  if (link.kind === 'identity' || (link.kind === 'grid' && link.inputChannels === 1)) return 0.5;
  if (link.kind === 'shaper') return 0.5 + (bits === 8 ? 0.06 : 0.1);
  if (bits === 8) {
    const node = 0.5 / 128;
    const fractions = (link.inputChannels * 0.5 * 255) / 16384;
    // With four channels the two slabs are rounded once more before they are mixed.
    return 0.5 + node + fractions + (link.inputChannels === 4 ? 0.5 / 128 : 0);
  }
  // Single precision holds a position of up to n − 1 to 2^-24 of itself, over some eight operations per channel.
  const position = link.inputChannels * 8 * (link.gridPoints - 1) * 2 ** -24 * 65535;
  return 0.5 + position + 8 * 2 ** -24 * 65535;
}

/** The exact result as a span, in codes: one point, except where a shaper's matrix nearly cancels to nothing. */
function exactSpan(link: DeviceLink, encoded: Float64Array, bits: SampleBits): [number, number][] {
  const top = bits === 8 ? 255 : 65535;
  if (link.kind === 'shaper') return shaperSpan(link, encoded).map(([low, high]) => [low * top, high * top]);
  const rgb = new Float64Array(3);
  evaluateLink(link, encoded, rgb);
  return [...rgb].map((value) => [value * top, value * top]);
}

/** Single precision leaves a linear value uncertain by a few 2^-24 of its terms; the root below 0 enlarges that. */
function shaperSpan(link: ShaperLink, encoded: Float64Array): [number, number][] {
  const linear = [...encoded].map((v, c) => readCurve(link.inputCurves[c]!, v));
  return [0, 1, 2].map((row) => {
    const terms = linear.map((v, c) => v * link.matrix[row * 3 + c]!);
    const sum = terms.reduce((a, b) => a + b, 0);
    const unsure = 6 * 2 ** -24 * terms.reduce((a, b) => a + Math.abs(b), 0);
    const encode = (value: number) => readCurve(link.outputCurves[row]!, Math.sqrt(Math.max(value, 0)));
    return [encode(sum - unsure), encode(sum + unsure)];
  });
}

function samples(bits: SampleBits, length: number, seed: number): Uint8Array | Uint16Array {
  const random = seeded(seed);
  const top = bits === 8 ? 255 : 65535;
  const pick = () => {
    const kind = random();
    return kind < 0.1 ? 0 : kind < 0.2 ? top : Math.floor(random() * (top + 1));
  };
  return bits === 8 ? Uint8Array.from({ length }, pick) : Uint16Array.from({ length }, pick);
}

/** Run a link both ways and hold each sample to the exact value. */
function check(link: DeviceLink, bits: SampleBits, pixels: number, flip: boolean, seed: number): void {
  const arena = createArena(link, { bits, slots: 2, slotPixels: pixels + 3, module });
  const kernel = attachKernel(arena, 1);
  const input = samples(bits, pixels * link.inputChannels, seed);
  // The loops pass over four pixels that repeat the four before: in the second half everything repeats but for one
  // sample here and there, in every place of a group in turn.
  const group = 4 * link.inputChannels;
  for (let i = Math.ceil(pixels / 8) * group; i < input.length; i += 1) {
    const changes = Math.floor(i / group) % (group + 1) === i % group;
    input[i] = changes ? input[i]! : input[i - group]!;
  }
  kernel.input.set(input);
  kernel.output.fill(77);
  // The whole of the other slot, its scratch area with it, and every table must be as they were.
  const { slotsAt, slotBytes } = arena.layout;
  const elsewhere = new Uint8Array(arena.memory.buffer, 0, slotsAt + slotBytes);
  elsewhere.subarray(slotsAt).fill(99);
  const before = elsewhere.slice();
  kernel.run(pixels, { flip });

  const limit = tolerance(link, bits);
  const top = bits === 8 ? 255 : 65535;
  const encoded = new Float64Array(link.inputChannels);
  for (let pixel = 0; pixel < pixels; pixel += 1) {
    for (let c = 0; c < encoded.length; c += 1) encoded[c] = input[pixel * encoded.length + c]! / top;
    const to = (flip ? pixels - 1 - pixel : pixel) * 3;
    for (const [c, [low, high]] of exactSpan(link, encoded, bits).entries()) {
      const got = kernel.output[to + c]!;
      if (got < low - limit || got > high + limit) {
        expect.fail(`pixel ${pixel} of ${pixels}, channel ${c}: ${got}, exactly ${low}..${high} ± ${limit}`);
      }
    }
  }
  expect(kernel.output.subarray(pixels * 3).every((value) => value === 77)).toBe(true);
  expect(kernel.input.subarray(0, input.length)).toEqual(input);
  expect(Buffer.compare(before, elsewhere)).toBe(0);
}

const links: Record<string, (seed: number) => DeviceLink> = {
  identity: () => identity,
  shaper: (seed) => shaperLink(1.8 + (seed % 7) / 10, matrix),
  grey: (seed) => noiseGrid(1, 2 + (seed % 300), seed, seed % 2 === 0),
  rgb: (seed) => noiseGrid(3, 2 + (seed % 16), seed, seed % 2 === 0),
  cmyk: (seed) => noiseGrid(4, 2 + (seed % 7), seed, seed % 2 === 0),
};

describe.each(Object.keys(links))('%s', (name) => {
  test.each([8, 16] as const)('%i bits: every length, tail, order and value agrees with the twin', (bits) => {
    fc.assert(
      fc.property(fc.nat(1e6), fc.integer({ min: 0, max: 90 }), fc.boolean(), (seed, pixels, flip) => {
        check(links[name]!(seed), bits, pixels, flip, seed);
      }),
      { numRuns: 60 },
    );
    check(links[name]!(4), bits, 1023, true, 5);
  });
});

test('the finest grids are laid and read without overflow', () => {
  check(noiseGrid(3, 65, 1), 8, 500, false, 1);
  check(noiseGrid(3, 65, 1), 16, 500, false, 1);
  check(noiseGrid(4, 23, 2), 8, 500, false, 2);
  check(noiseGrid(4, 23, 2), 16, 500, false, 2);
  check(noiseGrid(1, 4096, 3), 16, 500, false, 3);
});

test('8 bits differ from the twin in at most one code, and seldom', () => {
  for (const link of [pressLikeGrid(3, 33), pressLikeGrid(4, 17), shaperLink(2.2, matrix)]) {
    const pixels = 40_000;
    const input = samples(8, pixels * link.inputChannels, 31) as Uint8Array;
    const kernel = attachKernel(createArena(link, { bits: 8, slots: 1, slotPixels: pixels, module }), 0);
    kernel.input.set(input);
    kernel.run(pixels);
    const plain = new Uint8Array(pixels * 3);
    applyLinkPlain(link, input, plain, pixels, 8);
    let differing = 0;
    let furthest = 0;
    for (let i = 0; i < plain.length; i += 1) {
      const apart = Math.abs(plain[i]! - kernel.output[i]!);
      furthest = Math.max(furthest, apart);
      differing += apart;
    }
    expect(furthest).toBeLessThanOrEqual(1);
    // A sample differs when its exact value lies within the formats' doubt of a rounding: some thousandths of a code
    // for grids, about a hundredth for a shaper's 8192 output steps.
    expect(differing / plain.length).toBeLessThan(link.kind === 'grid' ? 0.005 : 0.012);
  }
});

test('8-bit whites, blacks and neutral grids are exact', () => {
  const neutral = noiseGrid(3, 9, 8);
  const table = neutral.table.map((_, i) => neutral.table[i - (i % 3)]!);
  const link = { ...neutral, table };
  const kernel = attachKernel(createArena(link, { bits: 8, slots: 1, slotPixels: 300, module }), 0);
  kernel.input.set(samples(8, 900, 9));
  kernel.run(300);
  for (let i = 0; i < 900; i += 3) {
    expect(kernel.output[i + 1]).toBe(kernel.output[i]);
    expect(kernel.output[i + 2]).toBe(kernel.output[i]);
  }
});

test('two threads on one memory do not disturb each other', async () => {
  const link = noiseGrid(3, 17, 41);
  const pixels = 5003;
  const arena = createArena(link, { bits: 8, slots: 2, slotPixels: pixels, module });
  const entry = new URL('../../dist/kernels/index.js', import.meta.url).href;
  // Each thread converts its own pixels many times over and says how often the result changed.
  const code = `
    const { parentPort, workerData } = require('node:worker_threads');
    import(workerData.entry).then(({ attachKernel }) => {
      const kernel = attachKernel(workerData.arena, workerData.slot);
      kernel.input.set(workerData.input);
      kernel.run(${pixels});
      const first = kernel.output.slice();
      let changes = 0;
      for (let i = 0; i < 200; i += 1) {
        kernel.run(${pixels});
        if (Buffer.compare(first, kernel.output) !== 0) changes += 1;
      }
      parentPort.postMessage(changes);
    });`;
  const inputs = [samples(8, pixels * 3, 51), samples(8, pixels * 3, 52)] as Uint8Array[];
  const changes = await Promise.all(
    inputs.map(
      (input, slot) =>
        new Promise((resolve, reject) => {
          const worker = new Worker(code, { eval: true, workerData: { entry, arena, slot, input } });
          worker.once('message', resolve);
          worker.once('error', reject);
        }),
    ),
  );
  expect(changes).toEqual([0, 0]);
  for (const [slot, input] of inputs.entries()) {
    const plain = new Uint8Array(pixels * 3);
    applyLinkPlain(link, input, plain, pixels, 8);
    const { output } = attachKernel(arena, slot);
    expect(output.every((value, i) => Math.abs(value - plain[i]!) <= 1)).toBe(true);
  }
});

describe('what is refused', () => {
  const options = { bits: 8, slots: 1, slotPixels: 10, module } as const;
  test('a table that is not as long as the grid says', () => {
    const link = { ...noiseGrid(3, 5, 1), gridPoints: 6 };
    expect(() => createArena(link, options)).toThrow(RangeError);
  });
  test('a grid finer than the formats hold', () => {
    const link = { ...noiseGrid(3, 2, 1), gridPoints: 129, table: new Uint16Array(129 ** 3 * 3) };
    expect(() => createArena(link, options)).toThrow(/too fine/);
  });
  test('a shaper without its nine values', () => {
    expect(() => createArena(shaperLink(2.2, [1, 0, 0]), options)).toThrow(RangeError);
  });
  test('more pixels than a slot holds, and a slot that is not there', () => {
    const arena = createArena(identity, options);
    expect(() => attachKernel(arena, 0).run(11)).toThrow(RangeError);
    expect(() => attachKernel(arena, 1)).toThrow(RangeError);
  });
});
