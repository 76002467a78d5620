import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { deltaE76 } from '#craft/colour';
import {
  inventedLabToRgb,
  inventedPrinter,
  inventedRgbToLab,
} from '../../../tests/fixtures/icc/invented-printer.js';
import { libvipsCmyk } from '../../../tests/fixtures/icc/libvips-cmyk.js';
import {
  littleCms,
  type Referee,
  refereeConvert,
  refereeDescription,
} from '../../../tests/fixtures/icc/little-cms.js';
import { everyStage, matrixTable, mixedCurvesDisplay } from '../../../tests/fixtures/icc/odd-profiles.js';
import { type BuiltinProfileName, builtinProfile } from './builtin.js';
import { readBytes } from './byte-reader.js';
import { describeProfile } from './describe.js';
import { encodeProfile } from './encode-profile.js';
import { lutFunction } from './lut-function.js';
import { md5 } from './md5.js';
import { parseProfile } from './parse-profile.js';
import { readLut } from './read-lut.js';
import { deviceToLab, labToDevice } from './transform.js';
import { writeRgbLutProfile } from './write-rgb-lut.js';

let lcms: Referee;
beforeAll(async () => {
  lcms = await littleCms();
});

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');

describe('MD5', () => {
  it.each([
    ['', 'd41d8cd98f00b204e9800998ecf8427e'],
    ['abc', '900150983cd24fb0d6963f7d28e17f72'],
    ['abcdefghijklmnopqrstuvwxyz', 'c3fcd3d76192e4007dfb496cca67e13b'],
  ])('RFC 1321, A.5: %j', (text, digest) => expect(hex(md5(new TextEncoder().encode(text)))).toBe(digest));

  it('equals OpenSSL at every length round the block size', () => {
    for (let n = 50; n < 200; n += 1) {
      const bytes = Uint8Array.from({ length: n }, (_, i) => (i * 37 + n) & 255);
      expect(hex(md5(bytes))).toBe(createHash('md5').update(bytes).digest('hex'));
    }
  });
});

describe('profiles made here', () => {
  const names: readonly BuiltinProfileName[] = [
    'srgb',
    'display-p3',
    'adobe-rgb-compatible',
    'grey-srgb',
    'grey-gamma-2.2',
  ];
  it.each(names.flatMap((name) => [[name, 2] as const, [name, 4] as const]))(
    '%s, version %d, is opened by Little CMS with its name',
    (name, version) => {
      const profile = builtinProfile(name, version);
      const bytes = encodeProfile(profile);
      expect(refereeDescription(lcms, bytes)).toBe(describeProfile(profile).description);
      expect(describeProfile(parseProfile(bytes)).version).toBe(version === 4 ? '4.4.0' : '2.4.0');
    },
  );

  it('carries the profile ID that OpenSSL works out (bytes 44–47, 64–67, 84–99 zeroed)', () => {
    const bytes = writeRgbLutProfile(inventedPrinter(4));
    const bare = bytes.slice();
    bare.fill(0, 44, 48).fill(0, 64, 68).fill(0, 84, 100);
    expect(hex(bytes.slice(84, 100))).toBe(createHash('md5').update(bare).digest('hex'));
    expect(hex(writeRgbLutProfile(inventedPrinter(2)).slice(84, 100))).toBe('0'.repeat(32));
  });

  it('keeps a name beyond ASCII in both versions, and says ? to old readers', () => {
    for (const version of [2, 4] as const) {
      const bytes = writeRgbLutProfile({
        ...inventedPrinter(version),
        description: 'Tasse – größer',
        a2bGridPoints: 3,
        b2aGridPoints: 3,
      });
      const read = describeProfile(parseProfile(bytes)).description;
      expect(read).toBe(version === 4 ? 'Tasse – größer' : 'Tasse ? gr??er');
    }
  });

  it('has every tag an output profile needs (ICC.1: A2B0–2, B2A0–2, gamt, wtpt, desc, cprt)', () => {
    for (const version of [2, 4] as const) {
      const profile = parseProfile(writeRgbLutProfile(inventedPrinter(version)));
      for (const tag of ['A2B0', 'A2B1', 'A2B2', 'B2A0', 'B2A1', 'B2A2', 'gamt', 'wtpt', 'desc', 'cprt']) {
        expect(profile.tags.has(tag), tag).toBe(true);
      }
      expect(describeProfile(profile)).toMatchObject({
        isRgbOutput: true,
        colourSpace: 'RGB',
        pcs: 'Lab',
        intents: ['perceptual', 'relative', 'saturation'],
      });
    }
  });

  it.each([
    ['lut16', 2],
    ['lut16', 4],
    ['mAB', 4],
  ] as const)(
    '%s, version %d: Little CMS gives the numbers that were put in, at grid points',
    (encoding, version) => {
      const source = writeRgbLutProfile(inventedPrinter(version, encoding));
      const rows = [];
      for (const r of [0, 4, 9, 16])
        for (const g of [0, 7, 16]) for (const b of [0, 11, 16]) rows.push([r / 16, g / 16, b / 16]);
      const labs = refereeConvert(
        lcms,
        { source, destination: 'lab', intent: 'relative', blackPointCompensation: false },
        rows,
      );
      rows.forEach((row, i) => {
        const wanted = inventedRgbToLab(row as [number, number, number]);
        // Half a 16-bit step is 0.002 in a*, b*; two roundings on the way.
        expect(deltaE76(wanted, labs[i] as [number, number, number])).toBeLessThan(0.01);
      });
    },
  );

  it('paper white is no ink, exactly, and neutrals stay on their axis', () => {
    for (const [version, encoding] of [
      [2, 'lut16'],
      [2, 'lut8'],
      [4, 'lut16'],
      [4, 'mAB'],
    ] as const) {
      const toDevice = labToDevice(parseProfile(writeRgbLutProfile(inventedPrinter(version, encoding))));
      for (const v of toDevice([100, 0, 0]))
        expect(v * 255).toBeGreaterThan(encoding === 'lut8' ? 253 : 254.9);
      const grey = toDevice([50, 0, 0]);
      const wanted = inventedLabToRgb([50, 0, 0]);
      // L* 50 stands on a grid point of 33; a* = b* = 0 in the middle; lut8 rounds to a whole code.
      grey.forEach((v, c) => {
        expect(Math.abs(v - wanted[c as 0]) * 255).toBeLessThan(encoding === 'lut8' ? 1 : 0.2);
      });
    }
  });

  it('a round trip through the tables comes back', () => {
    const profile = parseProfile(writeRgbLutProfile(inventedPrinter(4)));
    const up = deviceToLab(profile);
    const down = labToDevice(profile);
    const rows = fc.sample(
      fc.tuple(
        ...([0, 1, 2].map(() => fc.double({ min: 0.2, max: 0.9, noNaN: true })) as [
          fc.Arbitrary<number>,
          fc.Arbitrary<number>,
          fc.Arbitrary<number>,
        ]),
      ),
      { seed: 5, numRuns: 200 },
    );
    const errors = rows.map((row) => deltaE76(up(row), up(down(up(row)))));
    expect(Math.max(...errors)).toBeLessThan(2);
  });

  it('the gamut tag says inside and outside', () => {
    const bytes = writeRgbLutProfile(inventedPrinter(2));
    const view = new DataView(bytes.buffer, bytes.byteOffset);
    let tag: Uint8Array | undefined;
    for (let i = 0; i < view.getUint32(128); i += 1) {
      const at = 132 + 12 * i;
      if (view.getUint32(at) === 0x67616d74)
        tag = bytes.subarray(view.getUint32(at + 4), view.getUint32(at + 4) + view.getUint32(at + 8));
    }
    const run = lutFunction(readLut(readBytes(tag!, 'gamt'), { left: 1e6 }), 'trilinear');
    const outside = (l: number, a: number, b: number): number => {
      const io = new Float64Array(16);
      io.set([l / 100, (a + 128) / 255, (b + 128) / 255]);
      run(io);
      return io[0]!;
    };
    expect(outside(60, 0, 0)).toBe(0);
    expect(outside(60, 110, -110)).toBe(1);
  });
});

describe('reading', () => {
  it('reads back what was written', () => {
    for (const bytes of [
      everyStage('Lab'),
      matrixTable(),
      mixedCurvesDisplay(2, 3, 4),
      encodeProfile(builtinProfile('srgb')),
    ]) {
      expect(encodeProfile(parseProfile(bytes))).toEqual(bytes);
    }
  });

  it('describes a real CMYK profile', async () => {
    const bytes = await libvipsCmyk();
    const about = describeProfile(parseProfile(bytes));
    expect(about).toMatchObject({
      colourSpace: 'CMYK',
      canBeSource: true,
      canBeDestination: false,
      isRgbOutput: false,
    });
    expect(about.description).toBe(refereeDescription(lcms, bytes));
  });

  it.each([2, 4] as const)('sRGB and grey are no colour paths (version %d)', (version) => {
    expect(describeProfile(builtinProfile('srgb', version))).toMatchObject({
      canBeSource: true,
      canBeDestination: true,
      isRgbOutput: false,
    });
    expect(describeProfile(builtinProfile('grey-srgb', version))).toMatchObject({
      canBeSource: true,
      canBeDestination: false,
    });
  });
});
