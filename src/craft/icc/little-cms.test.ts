import fc from 'fast-check';
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { inventedPrinter } from '../../../tests/fixtures/icc/invented-printer.js';
import { littleCms, type Referee, refereeConvert } from '../../../tests/fixtures/icc/little-cms.js';
import { builtinProfile } from './builtin.js';
import { encodeProfile } from './encode-profile.js';
import type { Intent } from './link.js';
import { parseProfile } from './parse-profile.js';
import { createTransform } from './transform.js';
import { writeRgbLutProfile } from './write-rgb-lut.js';

const intents: readonly Intent[] = ['perceptual', 'relative', 'saturation', 'absolute'];
let lcms: Referee;
const profiles = new Map<string, Uint8Array>();

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
  const pixel = sharp({ create: { width: 1, height: 1, channels: 3, background: '#fff' } });
  const cmyk = await pixel.toColourspace('cmyk').withIccProfile('cmyk').tiff().toBuffer();
  profiles.set('cmyk', (await sharp(cmyk).metadata()).icc!);
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
              const difference = Math.abs(v - Math.min(1, Math.max(0, theirs[i]![c]!))) * 255;
              if (difference > worst) worst = difference;
            });
          });
          if (process.env['SHOW']) console.log(from, to, intent, blackPointCompensation, worst.toFixed(4));
          expect(worst).toBeLessThanOrEqual(1);
        },
      );
    }
  }
});
