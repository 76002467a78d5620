import sharp from 'sharp';
import type { Reader } from '#contract';
import type { LinearRgb } from '#craft/patchreading';
import type { ReaderMap } from '#craft/reader';
import { bestMap, type ChosenMap, isPhotograph, ownMapOf } from '#shop/readings';

/** By which map the colours of a picture are told: the reader's calibration, else the picture's own word. */
export async function mapForPicture(
  source: string | Uint8Array,
  about: {
    readonly reader: Reader | null;
    readonly readerMap: ReaderMap | null;
    readonly groundRgb: LinearRgb;
    readonly pixelLimit: number;
  },
): Promise<ChosenMap> {
  const { reader, readerMap, groundRgb, pixelLimit } = about;
  const kind = reader?.kind ?? ((await isPhotograph(source)) ? 'phone' : 'scanner');
  const icc = await embeddedProfile(source);
  return bestMap(await ownMapOf(source, { kind, groundRgb, icc, card: undefined, pixelLimit }), readerMap);
}

async function embeddedProfile(source: string | Uint8Array): Promise<Uint8Array | null> {
  const input =
    typeof source === 'string' ? source : Buffer.from(source.buffer, source.byteOffset, source.byteLength);
  const { icc } = await sharp(input, { limitInputPixels: false }).metadata();
  return icc === undefined ? null : new Uint8Array(icc);
}
