import sharp from 'sharp';
import { type CurveFunction, curveFunction, type IccProfile, parseProfile } from '#craft/icc';
import { type SampledPicture, srgbCurve } from '#craft/patchreading';
import { isProblem, Problem } from '#craft/problem';
import { openScan } from './open-picture.js';
import { asInput, openUpright } from './open-upright.js';

export interface OpenedChart {
  /** The reader's own RGB, not converted. */
  readonly picture: SampledPicture;
  readonly bits: 8 | 16;
  /** Where the way to linear light comes from: the curves of the picture's own profile, or those of sRGB. */
  readonly curve: 'profile' | 'srgb';
  readonly icc: Uint8Array | null;
  readonly fileFlipped: boolean;
  /** Pixels of `picture` per pixel of the upright file: 1 unless it was too large. */
  readonly scale: number;
  /** Compressed with loss: blocks and smeared colour look like patches read badly. */
  readonly isJpeg: boolean;
  /** One sentence each. */
  readonly remarks: readonly string[];
}

/** A4 at 600 ppi and a little: more tells nothing more of a patch. */
export const mostChartPixels = 40_000_000;

/**
 * Open a scan or photo of a colour test sheet as the reader wrote it, 8 or 16 bits, upright.
 * @throws Problem `image.*`, `file.missing`, `scan.unclear` for a picture without colour
 */
export async function openChartPicture(
  source: string | Uint8Array,
  pixelLimit: number,
): Promise<OpenedChart> {
  try {
    return await open(source, pixelLimit);
  } catch (error) {
    if (isProblem(error)) throw error;
    // Whatever is wrong with the file is wrong for any reader; that one has the words for it.
    await openScan(source, pixelLimit);
    throw new Problem('image.unreadable', 'The scan cannot be read to its end.', {
      remedy: 'Scan the sheet again, to PNG or TIFF.',
      cause: error,
    });
  }
}

async function open(source: string | Uint8Array, pixelLimit: number): Promise<OpenedChart> {
  const options = { failOn: 'error', limitInputPixels: pixelLimit, ignoreIcc: true } as const;
  const input = asInput(source);
  const meta = await sharp(input, options).metadata();
  if (meta.format === 'svg' || meta.format === 'pdf') {
    throw new Problem('image.wrong-type', `A scan cannot be a ${meta.format.toUpperCase()} file.`, {
      remedy: 'Scan to PNG, JPEG or TIFF.',
    });
  }
  if (meta.channels < 3 || meta.space === 'cmyk' || /^(b-w|grey16)$/.test(meta.space)) {
    throw new Problem('scan.unclear', 'The picture is not an RGB colour picture.', {
      remedy: 'Scan the sheet in colour (24 or 48 bit).',
    });
  }
  const bits = meta.depth === 'ushort' ? 16 : 8;
  const { opened, upWidth } = openUpright(input, options, meta, mostChartPixels);
  const { data, info } = await opened
    .flatten({ background: '#ffffff' })
    .toColourspace(bits === 16 ? 'rgb16' : 'srgb')
    .removeAlpha()
    .raw({ depth: bits === 16 ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true });
  const curves = profileCurves(meta.icc);
  const sampled = curves?.map((curve) => sampledCurve(curve, bits));
  const plain = srgbCurve(bits);
  return {
    picture: {
      width: info.width,
      height: info.height,
      data: bits === 16 ? words(data) : new Uint8Array(data.buffer, data.byteOffset, data.byteLength),
      toLinear: sampled ? [sampled[0]!, sampled[1]!, sampled[2]!] : [plain, plain, plain],
    },
    bits,
    curve: sampled ? 'profile' : 'srgb',
    icc: meta.icc ? new Uint8Array(meta.icc) : null,
    scale: info.width / upWidth,
    fileFlipped: [2, 4, 5, 7].includes(meta.orientation ?? 1),
    isJpeg: meta.format === 'jpeg',
    remarks: [
      ...(meta.icc && !sampled
        ? ['The picture’s colour profile has no plain tone curves, so its tones were taken as sRGB’s.']
        : []),
      ...(meta.format === 'jpeg'
        ? [
            'The picture is a JPEG, which loses some colour; PNG or TIFF is truer where the scanner offers it.',
          ]
        : []),
    ],
  };
}

function words(data: Buffer): Uint16Array {
  const own = data.byteOffset % 2 === 0 ? data : Buffer.from(data);
  return new Uint16Array(own.buffer, own.byteOffset, own.byteLength >> 1);
}

/** The tone curves of a matrix profile; null where there is none, or it is broken or of another kind. */
function profileCurves(icc: Uint8Array | undefined): CurveFunction[] | null {
  if (!icc) return null;
  let profile: IccProfile;
  try {
    profile = parseProfile(new Uint8Array(icc));
  } catch {
    return null;
  }
  if (profile.header.colourSpace !== 'RGB') return null;
  const curves = ['rTRC', 'gTRC', 'bTRC'].flatMap((name) => {
    const tag = profile.tags.get(name);
    return tag?.kind === 'curve' ? [curveFunction(tag.curve)] : [];
  });
  return curves.length === 3 ? curves : null;
}

function sampledCurve(curve: CurveFunction, bits: 8 | 16): Float32Array {
  const most = 2 ** bits - 1;
  return Float32Array.from({ length: most + 1 }, (_, i) => Math.min(1, Math.max(0, curve(i / most))));
}
