import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { commonSrgb, microCmyk } from '../../../tests/fixtures/icc/found-profiles.js';
import { inventedPrinter } from '../../../tests/fixtures/icc/invented-printer.js';
import { libvipsCmyk, libvipsRgb } from '../../../tests/fixtures/icc/libvips-cmyk.js';
import { littleCms, type Referee, refereeConvert } from '../../../tests/fixtures/icc/little-cms.js';
import {
  everyStage,
  labGrey,
  matrixTable,
  mixedCurvesDisplay,
  rewritten,
  sampledCurvesDisplay,
} from '../../../tests/fixtures/icc/odd-profiles.js';
import { builtinProfile } from './builtin.js';
import { encodeProfile } from './encode-profile.js';
import { parseProfile } from './parse-profile.js';
import { createTransform, deviceToLab } from './transform.js';
import type { Intent } from './types.js';
import { writeRgbLutProfile } from './write-rgb-lut.js';

const intents: readonly Intent[] = ['perceptual', 'relative', 'saturation', 'absolute'];
let lcms: Referee;
const profiles = new Map<string, Uint8Array>();

/**
 * In 8-bit codes. Little CMS rounds to 1/65535 (0.004 of a code) before and after each table and each sampled curve, and
 * turns sampled curves round through 4096 steps; where a curve is steep, near black, that grows to some hundredths.
 */
const tolerance8 = 0.15;

beforeAll(async () => {
  lcms = await littleCms();
  for (const name of ['srgb', 'display-p3', 'adobe-rgb-compatible', 'grey-srgb', 'grey-gamma-2.2'] as const) {
    profiles.set(name, encodeProfile(builtinProfile(name)));
    profiles.set(`${name} v2`, encodeProfile(builtinProfile(name, 2)));
  }
  for (const [version, encoding] of [
    [2, 'lut16'],
    [2, 'lut8'],
    [4, 'lut16'],
    [4, 'mAB'],
  ] as const) {
    profiles.set(`printer v${version} ${encoding}`, writeRgbLutProfile(inventedPrinter(version, encoding)));
  }
  const cmyk = await libvipsCmyk();
  const printer = profiles.get('printer v2 lut16')!;
  profiles.set('cmyk', cmyk);
  profiles.set('cmyk as v4', rewritten(cmyk, { version: 4 }));
  profiles.set('cmyk, perceptual only', rewritten(cmyk, { keep: (tag) => !/^(A2B|B2A)[12]/.test(tag) }));
  profiles.set(
    'printer, perceptual only',
    rewritten(printer, { keep: (tag) => !/^(A2B|B2A)[12]/.test(tag) }),
  );
  profiles.set('libvips srgb', await libvipsRgb('srgb'));
  profiles.set('libvips p3', await libvipsRgb('p3'));
  profiles.set('common srgb', commonSrgb());
  profiles.set('micro cmyk', microCmyk());
  profiles.set('curves 0 1 2', mixedCurvesDisplay(0, 1, 2));
  profiles.set('curves 3 4 0', mixedCurvesDisplay(3, 4, 0));
  profiles.set('sampled curves', sampledCurvesDisplay());
  profiles.set('lab grey', labGrey());
  profiles.set('every stage, XYZ', everyStage('XYZ'));
  profiles.set('every stage, Lab', everyStage('Lab'));
  profiles.set('matrix table', matrixTable());
});

function rowsFor(channels: number): number[][] {
  const unit = fc.double({ min: 0, max: 1, noNaN: true });
  const rows = fc.sample(fc.array(unit, { minLength: channels, maxLength: channels }), {
    seed: 15076,
    numRuns: 300,
  });
  for (let i = 0; i <= 32; i += 1) rows.push(Array.from({ length: channels }, () => i / 32));
  for (let corner = 0; corner < 2 ** channels; corner += 1) {
    rows.push(Array.from({ length: channels }, (_, c) => (corner >> c) & 1));
  }
  return rows;
}

const pairs: readonly (readonly [string, string])[] = [
  ['srgb', 'srgb'],
  ['srgb', 'display-p3'],
  ['display-p3', 'srgb v2'],
  ['adobe-rgb-compatible', 'srgb'],
  ['adobe-rgb-compatible v2', 'display-p3'],
  ['grey-srgb', 'srgb'],
  ['grey-gamma-2.2 v2', 'printer v2 lut16'],
  ['srgb', 'printer v2 lut16'],
  ['srgb v2', 'printer v2 lut8'],
  ['srgb', 'printer v4 lut16'],
  ['display-p3', 'printer v4 mAB'],
  ['adobe-rgb-compatible', 'printer v4 mAB'],
  ['cmyk', 'srgb'],
  ['cmyk', 'printer v2 lut16'],
  ['cmyk', 'printer v4 mAB'],
  ['srgb', 'cmyk'],
  ['printer v2 lut16', 'srgb'],
  ['printer v4 lut16', 'srgb'],
  ['printer v4 mAB', 'printer v2 lut16'],
  ['printer v2 lut8', 'printer v4 lut16'],
  ['cmyk as v4', 'printer v4 lut16'],
  ['srgb', 'cmyk as v4'],
  ['cmyk, perceptual only', 'srgb'],
  ['cmyk', 'printer, perceptual only'],
  ['printer, perceptual only', 'cmyk, perceptual only'],
  ['libvips srgb', 'printer v4 mAB'],
  ['libvips p3', 'libvips srgb'],
  ['common srgb', 'printer v2 lut16'],
  ['adobe-rgb-compatible', 'common srgb'],
  ['micro cmyk', 'srgb'],
  ['micro cmyk', 'printer v4 lut16'],
  ['curves 0 1 2', 'curves 3 4 0'],
  ['curves 3 4 0', 'curves 0 1 2'],
  ['sampled curves', 'printer v2 lut16'],
  ['srgb', 'sampled curves'],
  ['lab grey', 'srgb'],
  ['srgb', 'lab grey'],
  ['display-p3', 'grey-srgb'],
  ['every stage, XYZ', 'srgb'],
  ['srgb', 'every stage, XYZ'],
  ['every stage, Lab', 'every stage, XYZ'],
  ['adobe-rgb-compatible', 'every stage, Lab'],
  ['matrix table', 'srgb'],
  ['srgb', 'matrix table'],
];

describe('the exact chain against Little CMS', () => {
  for (const [from, to] of pairs) {
    for (const intent of intents) {
      it.each([false, true])(
        `${from} → ${to}, ${intent}, black point compensation %s`,
        (blackPointCompensation) => {
          const [a, b] = [profiles.get(from)!, profiles.get(to)!];
          const source = parseProfile(a);
          const destination = parseProfile(b);
          const transform = createTransform({ source, destination, intent, blackPointCompensation });
          const rows = rowsFor(transform.inputChannels);
          const theirs = refereeConvert(
            lcms,
            { source: a, destination: b, intent, blackPointCompensation },
            rows,
          );
          let worst = 0;
          rows.forEach((row, i) => {
            const ours = transform.convert(row);
            ours.forEach((v, c) => {
              // Math.max keeps a NaN, which then fails.
              worst = Math.max(worst, Math.abs(v - Math.min(1, Math.max(0, theirs[i]![c]!))) * 255);
            });
          });
          expect(worst).toBeLessThanOrEqual(tolerance8);
        },
      );
    }
  }
});

describe('device to Lab against Little CMS', () => {
  // Lab comes back in float; tables work in steps of 1/65535 of 100 (L*) and of 255 (a*, b*), here through one or two curves.
  it.each(['srgb', 'cmyk', 'printer v2 lut16', 'printer v2 lut8', 'printer v4 mAB', 'every stage, Lab'])(
    '%s',
    (name) => {
      const bytes = profiles.get(name)!;
      const toLab = deviceToLab(parseProfile(bytes));
      const rows = rowsFor(name === 'cmyk' ? 4 : 3);
      const options = {
        source: bytes,
        destination: 'lab',
        intent: 'relative',
        blackPointCompensation: false,
      } as const;
      const theirs = refereeConvert(lcms, options, rows);
      rows.forEach((row, i) => {
        const ours = toLab(row);
        for (let c = 0; c < 3; c += 1) expect(Math.abs(ours[c as 0] - theirs[i]![c]!)).toBeLessThan(0.03);
      });
    },
  );
});
