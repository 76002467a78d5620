import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { builtinProfile, encodeProfile } from '#craft/icc';
import { noise, tiffByHand } from '../testing/tiff-by-hand.js';
import { genericCmykProfile } from './generic-cmyk.js';
import { openPicture } from './open-picture.js';
import { probeArtwork } from './probe.js';

const folder = mkdtempSync(path.join(tmpdir(), 'colour-space-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const models = [
  {
    name: 'grey',
    channels: 1,
    photometric: 1,
    profile: async () => encodeProfile(builtinProfile('grey-srgb')),
  },
  {
    name: 'rgb',
    channels: 3,
    photometric: 2,
    profile: async () => encodeProfile(builtinProfile('display-p3')),
  },
  { name: 'cmyk', channels: 4, photometric: 5, profile: genericCmykProfile },
] as const;

describe.each(models)('$name artwork', ({ name, channels, photometric, profile }) => {
  it.each([
    [8, false],
    [8, true],
    [16, false],
    [16, true],
  ] as const)(
    'of %i bits, with a profile %s, opens as the very numbers in the file',
    async (bits, tagged) => {
      const [width, height] = [40, 30];
      const Samples = bits === 8 ? Uint8Array : Uint16Array;
      const samples = noise(new Samples(width * height * channels), 3);
      const file = path.join(folder, `${name}-${bits}-${tagged}.tif`);
      const icc = tagged ? { icc: await profile() } : {};
      writeFileSync(file, tiffByHand({ width, height, samples, channels, photometric, ...icc }));
      const facts = await probeArtwork(file);
      expect(facts).toMatchObject({ colourModel: name, bitsPerSample: bits });
      expect(facts.icc !== null).toBe(tagged);
      const picture = await openPicture(file, facts);
      const { data, info } = await picture
        .raw({ depth: bits === 8 ? 'uchar' : 'ushort' })
        .toBuffer({ resolveWithObject: true });
      expect(info.channels).toBe(channels);
      expect(data.equals(Buffer.from(samples.buffer))).toBe(true);
    },
  );
});
