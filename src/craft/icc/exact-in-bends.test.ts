import { beforeAll, describe, expect, it } from 'vitest';
import { inventedPrinter } from '../../../tests/fixtures/icc/invented-printer.js';
import { libvipsCmyk } from '../../../tests/fixtures/icc/libvips-cmyk.js';
import { bentCellTest } from './bent-cells.js';
import { buildLink } from './build-link.js';
import { exactInBends } from './exact-in-bends.js';
import type { GridLink } from './link.js';
import { parseProfile } from './parse-profile.js';
import { seeded } from './seeded.js';
import { createTransform } from './transform.js';
import type { TransformOptions } from './types.js';
import { writeRgbLutProfile } from './write-rgb-lut.js';

let chain: TransformOptions;
let link: GridLink;
beforeAll(async () => {
  chain = {
    source: parseProfile(await libvipsCmyk()),
    destination: parseProfile(writeRgbLutProfile(inventedPrinter(2))),
    intent: 'relative',
    blackPointCompensation: true,
  };
  link = buildLink(chain) as GridLink;
});

describe.each([8, 16] as const)('pixels in bent cells, %i bits', (bits) => {
  it('get the exact chain’s answer, met once or again; all others are left as the kernel made them', () => {
    const full = bits === 8 ? 255 : 65535;
    const Samples = bits === 8 ? Uint8Array : Uint16Array;
    const random = seeded(5);
    const pixels = 4000;
    const input = new Samples(pixels * 4).map((_, i) =>
      // Every other run of pixels comes again, so that remembered answers are tried too.
      i >= 8000 ? 0 : Math.floor(random() * (full + 1)),
    );
    input.copyWithin(8000, 0, 8000);
    const output = new Samples(pixels * 3).fill(7);
    exactInBends(link, bits)!(input, output, pixels);

    const isBent = bentCellTest(link);
    const exact = createTransform(chain);
    let bent = 0;
    for (let pixel = 0; pixel < pixels; pixel += 1) {
      const encoded = Float64Array.from(input.subarray(pixel * 4, pixel * 4 + 4), (v) => v / full);
      const got = [...output.subarray(pixel * 3, pixel * 3 + 3)];
      if (isBent(encoded)) {
        bent += 1;
        expect(got).toEqual([...exact.convert(encoded)].map((v) => Math.round(v * full)));
      } else expect(got).toEqual([7, 7, 7]);
    }
    expect(bent).toBeGreaterThan(pixels / 20);
    expect(bent).toBeLessThan(pixels / 1.5);
  });
});

it('links of other kinds need none of it', () => {
  const { bends: _, ...plain } = link;
  expect(exactInBends(plain, 8)).toBeNull();
});
