import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { displayP3FromXyzD65, srgbToLinear, type Triple3, xyzD65FromD50 } from '#craft/colour';
import { tagReaderMap, tagToXyz } from './tag-map.js';

async function profileOf(name: string): Promise<Uint8Array> {
  const picture = await sharp({ create: { width: 2, height: 2, channels: 3, background: '#808080' } })
    .withIccProfile(name)
    .toFormat(name === 'cmyk' ? 'jpeg' : 'png')
    .toBuffer();
  return new Uint8Array((await sharp(picture).metadata()).icc!);
}

describe('the tag of a picture', () => {
  it('says of Display P3 what its definition says (the profile is libvips’ own)', async () => {
    const toXyz = tagToXyz(await profileOf('p3'))!;
    for (const light of [
      [1, 1, 1],
      [0.7, 0.1, 0.05],
      [0.02, 0.4, 0.3],
    ] as const) {
      const back = displayP3FromXyzD65(xyzD65FromD50(toXyz(light))).map(srgbToLinear) as Triple3;
      // Primaries adapted and rounded by the profile's maker; sRGB's would be off by 0.1 and more.
      back.forEach((v, c) => {
        expect(Math.abs(v - light[c]!)).toBeLessThan(0.002);
      });
    }
  });

  it('is not believed when it is for other colours, or no profile at all', async () => {
    expect(tagToXyz(await profileOf('cmyk'))).toBeUndefined();
    expect(tagToXyz(new Uint8Array(300))).toBeUndefined();
    expect(tagToXyz((await profileOf('p3')).subarray(0, 200))).toBeUndefined();
    expect(tagToXyz(null)).toBeUndefined();
  });

  it('says so when there is none, and when the ground is too dark to go by', () => {
    const map = tagReaderMap({ kind: 'phone', groundRgb: [0, 0, 0] });
    expect(map.remarks.join(' ')).toMatch(/sRGB/);
    expect(map.remarks.join(' ')).toMatch(/too dark/);
    expect(map.toLab([[0.2, 0.2, 0.2]])[0]!.lab.every(Number.isFinite)).toBe(true);
    expect(map.expectedError.meanDeltaE00).toBe(10);
  });
});
