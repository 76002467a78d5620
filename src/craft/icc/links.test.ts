import { beforeAll, describe, expect, it } from 'vitest';
import { deltaE00 } from '#craft/colour';
import { commonSrgb } from '../../../tests/fixtures/icc/found-profiles.js';
import { inventedPrinter } from '../../../tests/fixtures/icc/invented-printer.js';
import { libvipsCmyk, libvipsRgb } from '../../../tests/fixtures/icc/libvips-cmyk.js';
import { littleCms, type Referee, refereeConvert } from '../../../tests/fixtures/icc/little-cms.js';
import { buildLink, buildProofLink } from './build-link.js';
import { builtinProfile } from './builtin.js';
import { encodeProfile } from './encode-profile.js';
import { linkFunction } from './evaluate-link.js';
import { gridFunction } from './grid.js';
import type { DeviceLink } from './link.js';
import { parseProfile } from './parse-profile.js';
import { lookUpReach, reachDeltaE00, reachTable, reachThresholdDeltaE00 } from './reach.js';
import { testColours } from './test-colours.js';
import { createTransform, deviceToLab, labToDevice } from './transform.js';
import type { IccProfile, Intent } from './types.js';
import { writeRgbLutProfile } from './write-rgb-lut.js';

let lcms: Referee;
let printer: Uint8Array;
let cmyk: Uint8Array;
const srgb = builtinProfile('srgb');

beforeAll(async () => {
  lcms = await littleCms();
  printer = writeRgbLutProfile(inventedPrinter(2));
  cmyk = await libvipsCmyk();
});

const build = (
  source: IccProfile,
  destination: IccProfile,
  intent: Intent,
  blackPointCompensation: boolean,
): DeviceLink => buildLink({ source, destination, intent, blackPointCompensation });

/** Differences in whole 8-bit codes, largest of the channels, over seeded colours rounded to 8 bits as artwork is. */
function againstReferee(
  link: DeviceLink,
  source: Uint8Array,
  destination: Uint8Array,
  intent: Intent,
  bpc: boolean,
) {
  const rows = testColours(link.inputChannels, 6000).map((row) =>
    Array.from(row, (v) => Math.round(v * 255) / 255),
  );
  const theirs = refereeConvert(lcms, { source, destination, intent, blackPointCompensation: bpc }, rows);
  const run = linkFunction(link);
  const out = new Float64Array(3);
  const codes = rows.map((row, i) => {
    run(row, out);
    return Math.max(
      ...theirs[i]!.map((v, c) =>
        Math.abs(Math.round(255 * Math.min(1, Math.max(0, v))) - Math.round(255 * out[c]!)),
      ),
    );
  });
  return { within1: codes.filter((d) => d <= 1).length / codes.length, max: Math.max(...codes) };
}

describe('links against Little CMS', () => {
  it.each([
    ['perceptual', false],
    ['relative', true],
    ['relative', false],
  ] as const)(
    'sRGB → printer tables, %s, black point compensation %s: ≥ 99.9 % within one code',
    (intent, bpc) => {
      const link = build(srgb, parseProfile(printer), intent, bpc);
      expect(link.kind).toBe('grid');
      const { within1, max } = againstReferee(link, encodeProfile(srgb), printer, intent, bpc);
      expect(within1).toBeGreaterThanOrEqual(0.999);
      expect(max).toBeLessThanOrEqual(3);
      if (link.kind === 'grid') expect(link.error8.mean).toBeLessThanOrEqual(0.5);
    },
  );

  it.each([
    ['perceptual', true],
    ['perceptual', false],
    ['relative', true],
    ['saturation', false],
  ] as const)(
    'CMYK → printer tables, %s, %s: ≥ 99.9 % within one code, near the edges too',
    (intent, bpc) => {
      const link = build(parseProfile(cmyk), parseProfile(printer), intent, bpc);
      const { within1, max } = againstReferee(link, cmyk, printer, intent, bpc);
      expect(within1).toBeGreaterThanOrEqual(0.999);
      expect(max).toBeLessThanOrEqual(2);
    },
  );

  it('CMYK → sRGB, where most colours clip: ≥ 99.9 % within one code', () => {
    const link = build(parseProfile(cmyk), srgb, 'relative', true);
    const { within1 } = againstReferee(link, cmyk, encodeProfile(srgb), 'relative', true);
    expect(within1).toBeGreaterThanOrEqual(0.999);
  });

  it('matrix to matrix is a shaper, all within one code', () => {
    for (const name of ['display-p3', 'adobe-rgb-compatible'] as const) {
      const source = builtinProfile(name);
      const link = build(source, srgb, 'relative', true);
      expect(link.kind).toBe('shaper');
      const { max } = againstReferee(link, encodeProfile(source), encodeProfile(srgb), 'relative', true);
      expect(max).toBeLessThanOrEqual(1);
    }
  });

  it('grey → printer tables, every 8-bit code within one code', () => {
    const source = builtinProfile('grey-gamma-2.2');
    const link = build(source, parseProfile(printer), 'relative', true);
    expect(link).toMatchObject({ kind: 'grid', inputChannels: 1 });
    expect(againstReferee(link, encodeProfile(source), printer, 'relative', true).max).toBeLessThanOrEqual(1);
  });

  it('the proof link shows the paper as white', () => {
    const link = buildProofLink(parseProfile(printer));
    const out = new Float64Array(3);
    linkFunction(link)([1, 1, 1], out);
    for (const v of out) expect(Math.round(v * 255)).toBe(255);
    linkFunction(link)([0, 0, 0], out);
    expect(out[1]! * 255).toBeGreaterThan(20); // the lifted black stays lifted
    expect(
      againstReferee(link, printer, encodeProfile(srgb), 'relative', false).within1,
    ).toBeGreaterThanOrEqual(0.99);
  });
});

describe('kinds of link', () => {
  it('sRGB by other makers passes untouched', async () => {
    expect(build(srgb, srgb, 'perceptual', true).kind).toBe('identity');
    expect(build(parseProfile(await libvipsRgb('srgb')), srgb, 'relative', true).kind).toBe('identity');
    expect(build(parseProfile(commonSrgb()), srgb, 'relative', true).kind).toBe('identity');
    expect(build(builtinProfile('srgb', 2), srgb, 'relative', false).kind).toBe('identity');
  });

  it('a printer profile for CMYK is refused', () => {
    expect(() => build(srgb, parseProfile(cmyk), 'relative', false)).toThrowError(
      expect.objectContaining({ code: 'profile.unsupported' }),
    );
  });

  it('the corners and the neutral nodes of a grid keep the values of the exact chain, to half a code of 65535', () => {
    const options = {
      source: srgb,
      destination: parseProfile(printer),
      intent: 'relative',
      blackPointCompensation: true,
    } as const;
    const link = buildLink(options);
    if (link.kind !== 'grid') throw new Error(link.kind);
    const run = linkFunction(link);
    const exact = createTransform(options);
    const out = new Float64Array(3);
    const offBy = (rgb: readonly number[]): number => {
      run(rgb, out);
      return Math.max(...exact.convert(rgb).map((v, c) => Math.abs(v - out[c]!))) * 65535;
    };
    // The table holds whole codes of 65535; the interpolation runs in single precision.
    const half = 0.51;
    for (let corner = 0; corner < 8; corner += 1)
      expect(offBy([corner & 1, (corner >> 1) & 1, corner >> 2])).toBeLessThanOrEqual(half);
    expect(link.inputCurves).toBeNull();
    for (let node = 0; node < link.gridPoints; node += 1) {
      const grey = node / (link.gridPoints - 1);
      expect(offBy([grey, grey, grey])).toBeLessThanOrEqual(half);
    }
    run([1, 1, 1], out);
    expect(Array.from(out, (v) => Math.round(v * 255))).toEqual([255, 255, 255]);
  });
});

describe('grid interpolation', () => {
  // An affine function is reproduced exactly by tetrahedra, by cubes and by the mixture used for four channels.
  it.each([1, 2, 3, 4, 5])('%d channels reproduce an affine function', (channels) => {
    const points = Array.from({ length: channels }, (_, c) => 3 + (c % 3));
    const slopes = points.map((_, c) => 0.05 + 0.03 * c);
    const count = points.reduce((n, p) => n * p, 1);
    const affine = (at: readonly number[]): number => at.reduce((sum, v, c) => sum + v * slopes[c]!, 0.1);
    const values = new Float32Array(count);
    for (let node = 0; node < count; node += 1) {
      let rest = node;
      const at = points.map(() => 0);
      for (let c = channels - 1; c >= 0; c -= 1) {
        at[c] = (rest % points[c]!) / (points[c]! - 1);
        rest = Math.floor(rest / points[c]!);
      }
      values[node] = affine(at);
    }
    const grid = { inputChannels: channels, outputChannels: 1, points, values };
    for (const way of ['tetrahedral', 'trilinear'] as const) {
      const run = gridFunction(grid, way);
      for (const colour of testColours(channels, 300)) {
        const io = new Float64Array(16);
        io.set(colour);
        run(io);
        expect(Math.abs(io[0]! - affine(Array.from(colour)))).toBeLessThan(1e-6); // float32 nodes
      }
    }
  });
});

describe('reach', () => {
  it('colours a device does print come back within the threshold, 95 of 100', () => {
    for (const [bytes, bound] of [
      [cmyk, reachThresholdDeltaE00],
      [printer, 1],
    ] as const) {
      const profile = parseProfile(bytes);
      const up = deviceToLab(profile);
      const down = labToDevice(profile);
      // Inks up to 240 %: more is over the limit such profiles keep to.
      const colours = testColours(bytes === cmyk ? 4 : 3, 4000).filter(
        (c) => c.reduce((a, b) => a + b) < 2.4,
      );
      const errors = colours
        .map((colour) => deltaE00(up(colour), up(down(up(colour)))))
        .sort((a, b) => a - b);
      expect(errors[Math.floor(0.95 * errors.length)]).toBeLessThan(bound);
    }
  });

  it('colours the printer holds are reached, saturated sRGB is not', () => {
    const table = reachTable({
      source: srgb,
      destination: parseProfile(printer),
      intent: 'relative',
      blackPointCompensation: true,
    });
    for (const grey of [0.1, 0.3, 0.5, 0.8, 1])
      expect(reachDeltaE00(table, grey, grey, grey)).toBeLessThan(1);
    expect(reachDeltaE00(table, 0.6, 0.4, 0.3)).toBeLessThan(1);
    for (const [r, g, b] of [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [1, 0, 1],
    ] as const) {
      expect(reachDeltaE00(table, r, g, b)).toBeGreaterThan(reachThresholdDeltaE00);
    }
    const red = lookUpReach(table, 1, 0, 0);
    expect(red.wantedSrgb8).toEqual([255, 0, 0]);
    expect(red.nearestSrgb8[1]).toBeGreaterThan(40);
  });

  it('a wider screen space is out of reach of a smaller one, by the published P3 and sRGB primaries', () => {
    const table = reachTable({
      source: builtinProfile('display-p3'),
      destination: srgb,
      intent: 'relative',
      blackPointCompensation: false,
    });
    expect(reachDeltaE00(table, 0, 1, 0)).toBeGreaterThan(3);
    expect(reachDeltaE00(table, 0.5, 0.5, 0.5)).toBeLessThan(0.01);
    const own = reachTable({
      source: srgb,
      destination: srgb,
      intent: 'relative',
      blackPointCompensation: false,
    });
    expect(own.values.filter((_, i) => i % 10 === 0).reduce((a, b) => Math.max(a, b))).toBeLessThan(0.01);
  });

  it('takes grey and CMYK artwork', () => {
    const destination = parseProfile(printer);
    const grey = reachTable({
      source: builtinProfile('grey-srgb'),
      destination,
      intent: 'perceptual',
      blackPointCompensation: false,
    });
    expect(reachDeltaE00(grey, 0.5)).toBeLessThan(1);
    const ink = reachTable({
      source: parseProfile(cmyk),
      destination,
      intent: 'relative',
      blackPointCompensation: true,
    });
    expect(reachDeltaE00(ink, 0, 0, 0, 0)).toBeLessThan(1);
    expect(lookUpReach(ink, 1, 0, 0, 0).wantedLab[2]).toBeLessThan(-30); // cyan is blue-green
  });
});
