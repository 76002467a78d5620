import sharp from 'sharp';
import { coaster } from './coaster.js';
import { mugWrap } from './mug-wrap.js';
import { pennant } from './pennant.js';
import { shirtLettering } from './shirt.js';

export interface DemoPiece {
  readonly key: 'mug' | 'coaster' | 'shirt' | 'pennant';
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

/** The regatta's artwork, drawn by us, as files a person might bring. */
export async function demoArtwork(): Promise<DemoPiece[]> {
  return [
    { key: 'pennant', fileName: 'club-banner.svg', bytes: Buffer.from(pennant()) },
    { key: 'shirt', fileName: 'pull-with-the-tide.png', bytes: await png(shirtLettering()) },
    { key: 'coaster', fileName: 'regatta-coaster.png', bytes: await png(coaster()) },
    { key: 'mug', fileName: 'evening-on-the-marsh.png', bytes: await png(mugWrap()) },
  ];
}

/** Draws an SVG of ten units a millimetre at 300 pixels an inch, in whole pixels so that no edge is half covered. */
async function png(svg: string): Promise<Uint8Array> {
  const size = /width="(\d+)" height="(\d+)"/.exec(svg);
  const [width, height] = [size?.[1], size?.[2]].map((units) => Math.round((Number(units) / 254) * 300));
  const whole = svg.replace(
    /width="\d+" height="\d+"/,
    `width="${width}" height="${height}" preserveAspectRatio="none"`,
  );
  return sharp(Buffer.from(whole))
    .withMetadata({ density: 300 })
    .withIccProfile('srgb')
    .png({ compressionLevel: 8 })
    .toBuffer();
}
