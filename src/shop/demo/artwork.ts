import sharp from 'sharp';
import { coaster } from './coaster.js';
import { mugWrap } from './mug-wrap.js';
import { pennant } from './pennant.js';
import { shirtLettering } from './shirt.js';

export interface DemoPiece {
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

export const demoFileNames = {
  banner: 'club-banner.svg',
  shirt: 'pull-with-the-tide.png',
  coaster: 'regatta-coaster.png',
  mug: 'evening-on-the-marsh.png',
} as const;

/** The regatta's artwork, drawn by us, as files a person might bring. */
export async function demoArtwork(): Promise<DemoPiece[]> {
  return [
    { fileName: demoFileNames.banner, bytes: Buffer.from(pennant()) },
    { fileName: demoFileNames.shirt, bytes: await png(shirtLettering(), 'see-through') },
    { fileName: demoFileNames.coaster, bytes: await png(coaster(), 'opaque') },
    { fileName: demoFileNames.mug, bytes: await png(mugWrap(), 'opaque') },
  ];
}

/** Draws an SVG of ten units a millimetre at 300 pixels an inch, in whole pixels so that no edge is half covered. */
async function png(svg: string, ground: 'opaque' | 'see-through'): Promise<Uint8Array> {
  const size = /width="(\d+)" height="(\d+)"/.exec(svg);
  const [width, height] = [size?.[1], size?.[2]].map((units) => Math.round((Number(units) / 254) * 300));
  const whole = svg.replace(
    /width="\d+" height="\d+"/,
    `width="${width}" height="${height}" preserveAspectRatio="none"`,
  );
  const drawn = sharp(Buffer.from(whole)).withMetadata({ density: 300 }).withIccProfile('srgb');
  if (ground === 'opaque') drawn.removeAlpha();
  return drawn.png({ compressionLevel: 8 }).toBuffer();
}
