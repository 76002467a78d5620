import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import { inventedPrinter } from '../../../tests/fixtures/icc/invented-printer.js';
import { everyStage, matrixTable } from '../../../tests/fixtures/icc/odd-profiles.js';
import { builtinProfile } from './builtin.js';
import { readBytes } from './byte-reader.js';
import { describeProfile } from './describe.js';
import { encodeProfile } from './encode-profile.js';
import { parseProfile } from './parse-profile.js';
import { readLut } from './read-lut.js';
import { deviceToLab, labToDevice } from './transform.js';
import { writeRgbLutProfile } from './write-rgb-lut.js';

describe('broken profiles', () => {
  const srgb = encodeProfile(builtinProfile('srgb'));
  const changed = (at: number, ...values: number[]): Uint8Array => {
    const bytes = srgb.slice();
    bytes.set(values, at);
    return bytes;
  };
  const cases: readonly (readonly [string, Uint8Array])[] = [
    ['nothing', new Uint8Array()],
    ['not a profile', new TextEncoder().encode('x'.repeat(300))],
    ['cut short', srgb.slice(0, 300)],
    ['one byte short', srgb.slice(0, -1)],
    ['a length beyond the end', changed(0, 0x7f, 0, 0, 0)],
    ['a length of nought', changed(0, 0, 0, 0, 0)],
    ['no such version', changed(8, 9)],
    ['no such class', changed(12, 1, 2, 3, 4)],
    ['no such connection space', changed(20, 65, 65, 65, 65)],
    ['four billion tags', changed(128, 255, 255, 255, 255)],
    ['a tag beyond the end', changed(136, 0x7f, 255, 255, 255)],
    ['a tag of four billion bytes', changed(140, 255, 255, 255, 255)],
    ['a tag inside the header', changed(136, 0, 0, 0, 4)],
  ];
  it.each(cases)('%s is told in a sentence with a remedy', (_, bytes) => {
    try {
      parseProfile(bytes);
      expect.unreachable();
    } catch (error) {
      expect(isProblem(error) && error.code).toBe('profile.broken');
      expect(isProblem(error) && error.message).toMatch(/^The ICC profile is broken: .+\.$/);
      expect(isProblem(error) && error.remedy.length).toBeGreaterThan(10);
    }
  });

  it('version 5 and device links are refused as unusable', () => {
    for (const bytes of [changed(8, 5), changed(12, ...new TextEncoder().encode('link'))]) {
      expect(() => parseProfile(bytes)).toThrowError(
        expect.objectContaining({ code: 'profile.unsupported' }),
      );
    }
  });

  it('a table that claims 255 points on 15 channels asks for no memory', () => {
    const lut = new Uint8Array(2000);
    lut.set(new TextEncoder().encode('mft2'));
    lut.set([15, 15, 255], 8);
    lut.set([0, 2, 0, 2], 48);
    expect(() => readLut(readBytes(lut, 'a table'), { left: 1e6 })).toThrowError(
      expect.objectContaining({ code: 'profile.broken' }),
    );
  });

  // Byte flips and cuts all over four kinds of profile: nothing but Problems may come out, of reading or of using.
  it('whatever is flipped or cut, only Problems come out', () => {
    const small = { a2bGridPoints: 3, b2aGridPoints: 3 };
    const bases = [
      srgb,
      everyStage('XYZ'),
      matrixTable(),
      writeRgbLutProfile({ ...inventedPrinter(2), ...small }),
      writeRgbLutProfile({ ...inventedPrinter(4, 'mAB'), ...small }),
    ];
    const flips = fc.array(
      fc.tuple(
        fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
        fc.integer({ min: 0, max: 255 }),
      ),
      { maxLength: 6 },
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...bases),
        flips,
        fc.boolean(),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (base, edits, inHead, cut) => {
          const bytes = base.slice(0, cut < 0.8 ? base.length : Math.floor(base.length * cut));
          for (const [place, value] of edits) {
            // Half of the runs aim at the header and the table of tags, where structure is.
            const reach = inHead ? Math.min(600, bytes.length) : bytes.length;
            if (reach > 0) bytes[Math.floor(place * reach)] = value;
          }
          try {
            const profile = parseProfile(bytes);
            describeProfile(profile);
            const lab = deviceToLab(profile)([0.3, 0.5, 0.7, 0.1]);
            expect(lab.every((v) => typeof v === 'number')).toBe(true);
            for (const v of labToDevice(profile)([50, 10, -10])) expect(v >= 0 && v <= 1).toBe(true);
          } catch (error) {
            if (!isProblem(error)) throw error;
            expect(error.code).toMatch(/^profile\./);
          }
        },
      ),
      { seed: 24790, numRuns: 1500 },
    );
  });
});
