/** The CMYK printer profile that libvips carries, run by Little CMS. */
import sharp from 'sharp';

/** The part of the binding used here; the package carries no types. */
interface LittleCms {
  instantiate(): Promise<Engine>;
  readonly cmsFLAGS_NOOPTIMIZE: number;
  readonly cmsFLAGS_NOCACHE: number;
}
interface Engine {
  readonly HEAPU8: Uint8Array;
  _malloc(bytes: number): number;
  _cmsOpenProfileFromMem(at: number, bytes: number): number;
  cmsCreateLab4Profile(white: null): number;
  cmsCreate_sRGBProfile(): number;
  cmsCreateTransform(
    from: number,
    fromType: number,
    to: number,
    toType: number,
    intent: number,
    flags: number,
  ): number;
  cmsDoTransform(transform: number, input: Float32Array, count: number): Float32Array;
}
const packageName: string = 'lcms-wasm';

export interface CmykPrinter {
  /** CMYK 0..1 → Lab, relative colorimetric. */
  toLab(cmyk: readonly (readonly number[])[]): [number, number, number][];
  /** RGB 0..1 taken as sRGB → CMYK by the perceptual table → Lab. */
  throughDriver(rgb: readonly (readonly number[])[]): [number, number, number][];
}

let made: Promise<CmykPrinter> | null = null;

export function libvipsCmyk(): Promise<CmykPrinter> {
  made ??= make();
  return made;
}

/** Bit layout of Little CMS pixel types (lcms2.h): float, colour space, channels, bytes. */
const floatType = (space: number, channels: number): number =>
  (1 << 22) | (space << 16) | (channels << 3) | 4;
const labFloat = floatType(10, 3);
const cmykFloat = floatType(6, 4);
const rgbFloat = floatType(4, 3);

async function make(): Promise<CmykPrinter> {
  const pixel = await sharp({ create: { width: 1, height: 1, channels: 3, background: '#888' } })
    .withIccProfile('cmyk')
    .tiff()
    .toBuffer();
  const icc = (await sharp(pixel).metadata()).icc;
  if (icc === undefined) throw new Error('libvips gave no CMYK profile');
  const littleCms = (await import(packageName)) as LittleCms;
  const lcms = await littleCms.instantiate();
  // The binding's own call copies the bytes to the stack, which is too small for this profile.
  const at = lcms._malloc(icc.length);
  lcms.HEAPU8.set(icc, at);
  const cmykProfile = lcms._cmsOpenProfileFromMem(at, icc.length);
  const labProfile = lcms.cmsCreateLab4Profile(null);
  const srgbProfile = lcms.cmsCreate_sRGBProfile();
  const flags = littleCms.cmsFLAGS_NOOPTIMIZE | littleCms.cmsFLAGS_NOCACHE;
  const toLab = lcms.cmsCreateTransform(cmykProfile, cmykFloat, labProfile, labFloat, 1, flags);
  const toInk = lcms.cmsCreateTransform(srgbProfile, rgbFloat, cmykProfile, cmykFloat, 0, flags);

  const labOf = (percent: Float32Array, count: number): [number, number, number][] => {
    const out = lcms.cmsDoTransform(toLab, percent, count);
    return Array.from({ length: count }, (_, i) => [out[3 * i]!, out[3 * i + 1]!, out[3 * i + 2]!]);
  };
  return {
    // Little CMS counts floating CMYK in percent.
    toLab: (cmyk) => labOf(Float32Array.from(cmyk.flatMap((ink) => ink.map((v) => 100 * v))), cmyk.length),
    throughDriver: (rgb) =>
      labOf(
        Float32Array.from(lcms.cmsDoTransform(toInk, Float32Array.from(rgb.flat()), rgb.length)),
        rgb.length,
      ),
  };
}
