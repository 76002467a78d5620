import sharp from 'sharp';
import { Problem } from '#craft/problem';

let profile: Promise<Uint8Array> | null = null;

/**
 * libvips' own generic CMYK profile, for untagged CMYK artwork. The library hands it out only inside a picture,
 * so a small picture is made and the profile taken out of it.
 */
export function genericCmykProfile(): Promise<Uint8Array> {
  profile ??= extract();
  return profile;
}

async function extract(): Promise<Uint8Array> {
  const picture = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#ffffff' } })
    .withIccProfile('cmyk')
    .jpeg()
    .toBuffer();
  const { icc, space } = await sharp(picture).metadata();
  if (icc === undefined || space !== 'cmyk') {
    throw new Problem('internal.fault', 'The generic CMYK profile could not be had from the image library.', {
      remedy: 'Save the artwork as RGB and add it again.',
    });
  }
  return new Uint8Array(icc);
}
