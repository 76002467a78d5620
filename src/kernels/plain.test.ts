import { converter } from 'culori';
import { beforeAll, describe, expect, test } from 'vitest';
import type { DeviceLink, GridLink } from './link-shape.js';
import { applyLinkPlain, evaluateLink } from './plain.js';
import { deviceLinkProfile } from './testing/device-link-profile.js';
import { gridFrom, noiseGrid, powerCurve, pressLikeGrid, seeded, shaperLink } from './testing/links.js';

function evaluate(link: DeviceLink, ...encoded: number[]): number[] {
  const rgb = new Float64Array(3);
  evaluateLink(link, Float64Array.from(encoded), rgb);
  return [...rgb];
}

describe('against Little CMS', () => {
  interface LittleCms {
    cmsOpenProfileFromMem(bytes: Uint8Array, length: number): number;
    cmsCreateTransform(a: number, from: number, b: number, to: number, intent: number, flags: number): number;
    cmsDoTransform(transform: number, input: Uint16Array, pixels: number): Uint16Array;
  }
  let lcms: LittleCms;
  let constants: Record<string, number>;
  beforeAll(async () => {
    const library = await import('lcms-wasm' as string);
    constants = library;
    lcms = await library.instantiate();
  });

  function throughLittleCms(link: GridLink, input: Uint16Array): Uint16Array {
    const bytes = deviceLinkProfile(link);
    const profile = lcms.cmsOpenProfileFromMem(bytes, bytes.length);
    expect(profile).not.toBe(0);
    const from = { 1: constants.TYPE_GRAY_16!, 3: constants.TYPE_RGB_16!, 4: constants.TYPE_CMYK_16! }[
      link.inputChannels
    ];
    const flags = constants.cmsFLAGS_NOOPTIMIZE! | constants.cmsFLAGS_NOCACHE!;
    const transform = lcms.cmsCreateTransform(profile, from, 0, constants.TYPE_RGB_16!, 0, flags);
    expect(transform).not.toBe(0);
    return lcms.cmsDoTransform(transform, input, input.length / link.inputChannels);
  }

  function furthestApart(link: GridLink): number {
    const random = seeded(7);
    const pixels = 20_000;
    const input = Uint16Array.from({ length: pixels * link.inputChannels }, () => random() * 65536);
    // Corners and edges too: a third of the samples at an end of the scale.
    for (let i = 0; i < input.length; i += 3) input[i] = i % 2 === 0 ? 0 : 65535;
    const theirs = throughLittleCms(link, input);
    const ours = new Uint16Array(pixels * 3);
    applyLinkPlain(link, input, ours, pixels, 16);
    return ours.reduce((most, value, i) => Math.max(most, Math.abs(value - theirs[i]!)), 0);
  }

  // Little CMS works in 16-bit whole numbers: the position on the grid is kept to 1/65536 of a cell and each of its
  // weighted differences to one code, so two codes on smooth tables, and on a table of noise, where a cell spans up
  // to the whole scale, one more for the position.
  test('three channels, tetrahedral', () => {
    expect(furthestApart(pressLikeGrid(3, 33))).toBeLessThanOrEqual(2);
    expect(furthestApart(noiseGrid(3, 17, 3))).toBeLessThanOrEqual(3);
    expect(furthestApart(noiseGrid(3, 2, 4))).toBeLessThanOrEqual(3);
  });

  test('four channels, tetrahedral in the last three and linear in the first', () => {
    expect(furthestApart(pressLikeGrid(4, 17))).toBeLessThanOrEqual(2);
    expect(furthestApart(noiseGrid(4, 9, 5))).toBeLessThanOrEqual(4);
  });

  test('one channel, linear', () => {
    expect(furthestApart(pressLikeGrid(1, 255))).toBeLessThanOrEqual(2);
    expect(furthestApart(noiseGrid(1, 33, 6))).toBeLessThanOrEqual(3);
  });

  test('input curves', () => {
    // Their curves hand on 16-bit values: half a code there is up to 0.5 · slope here (slope of this table < 2).
    const curves = [powerCurve(2.2, 256), powerCurve(0.6, 256), powerCurve(1.4, 256)];
    expect(furthestApart({ ...pressLikeGrid(3, 17), inputCurves: curves })).toBeLessThanOrEqual(4);
  });
});

describe('what must hold of interpolation', () => {
  test('an affine function of the channels comes out as it is', () => {
    const affine = (p: readonly number[]): [number, number, number] => [
      0.1 + 0.5 * p[0]! + 0.2 * p[1]! + 0.1 * p[2]!,
      0.9 - 0.3 * p[0]! - 0.4 * p[1]! + 0.05 * p[2]!,
      0.2 + 0.6 * p[2]!,
    ];
    const link = gridFrom(3, 5, affine);
    const random = seeded(11);
    for (let i = 0; i < 500; i += 1) {
      const at = [random(), random(), random()];
      const want = affine(at);
      // Each node is rounded to 1/65535, so no weighted mean is further off than half of that.
      for (const [c, value] of evaluate(link, ...at).entries())
        expect(Math.abs(value - want[c]!)).toBeLessThanOrEqual(0.5001 / 65535);
    }
  });

  test('every node of the grid comes out exactly', () => {
    for (const channels of [3, 4] as const) {
      const n = 4;
      const link = noiseGrid(channels, n, 13);
      for (let node = 0; node < n ** channels; node += 1) {
        const at = Array.from(
          { length: channels },
          (_, c) => (Math.floor(node / n ** (channels - 1 - c)) % n) / (n - 1),
        );
        const rgb = evaluate(link, ...at).map((v) => v * 65535);
        for (let c = 0; c < 3; c += 1) expect(rgb[c]).toBeCloseTo(link.table[node * 3 + c]!, 6);
      }
    }
  });

  test('a neutral stays neutral where the diagonal of the grid is neutral, whatever surrounds it', () => {
    const random = seeded(17);
    const link = gridFrom(3, 9, ([r, g, b]) =>
      r === g && g === b ? [r! ** 2, r! ** 2, r! ** 2] : [random(), random(), random()],
    );
    for (let v = 0; v < 256; v += 1) {
      const [r, g, b] = evaluate(link, v / 255, v / 255, v / 255);
      expect(g).toBeCloseTo(r!, 12);
      expect(b).toBeCloseTo(r!, 12);
    }
  });

  test('exchanging two channels of a symmetric grid exchanges them in the result', () => {
    const link = gridFrom(3, 6, ([r, g, b]) => [r! * (1 - 0.3 * g! * b!), g! * (1 - 0.3 * r! * b!), b!]);
    const random = seeded(19);
    for (let i = 0; i < 300; i += 1) {
      const [r, g, b] = [random(), random(), random()] as const;
      const one = evaluate(link, r, g, b);
      const other = evaluate(link, g, r, b);
      expect(other[0]).toBeCloseTo(one[1]!, 12);
      expect(other[1]).toBeCloseTo(one[0]!, 12);
    }
  });
});

test('a shaper from sRGB to Adobe RGB (1998) agrees with culori', () => {
  // Columns: what each linear sRGB primary is in linear Adobe RGB; 563/256 is that space's exponent (Adobe RGB
  // (1998) Color Image Encoding, 4.3.4.2). culori works out both on its own.
  const toAdobe = converter('a98');
  const columns = ['r', 'g', 'b'].map((primary) => {
    const a98 = toAdobe({ mode: 'lrgb', r: 0, g: 0, b: 0, [primary]: 1 });
    return [a98.r, a98.g, a98.b].map((v) => Math.sign(v) * Math.abs(v) ** (563 / 256));
  });
  const matrix = [0, 1, 2].flatMap((row) => columns.map((column) => column[row]!));
  const link = shaperLink(563 / 256, matrix);
  const random = seeded(23);
  for (let i = 0; i < 2000; i += 1) {
    const [r, g, b] = [random(), random(), random()] as const;
    const want = toAdobe({ mode: 'rgb', r, g, b });
    const got = evaluate(link, r, g, b);
    // A quarter of an 8-bit code: what 4096 samples of these curves can hold near black.
    for (const [c, value] of [want.r, want.g, want.b].entries()) {
      expect(Math.abs(got[c]! - Math.min(Math.max(value, 0), 1))).toBeLessThan(0.25 / 255);
    }
  }
});

test('flip reverses the pixels and not their channels', () => {
  const identity: DeviceLink = { kind: 'identity', inputChannels: 3 };
  const output = new Uint8Array(9);
  applyLinkPlain(identity, Uint8Array.of(1, 2, 3, 4, 5, 6, 7, 8, 9), output, 3, 8, { flip: true });
  expect([...output]).toEqual([7, 8, 9, 4, 5, 6, 1, 2, 3]);
});
