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

/** An RGB output profile run by Little CMS, relative colorimetric, floating point, no optimisation. */
export async function byLittleCms(icc: Uint8Array): Promise<{
  toLab(rgb: readonly (readonly number[])[]): [number, number, number][];
  toDevice(lab: readonly (readonly number[])[]): [number, number, number][];
}> {
  const { lcms, flags, open } = await engine();
  const profile = open(icc);
  const labProfile = lcms.cmsCreateLab4Profile(null);
  const toLab = lcms.cmsCreateTransform(profile, rgbFloat, labProfile, labFloat, 1, flags);
  const toDevice = lcms.cmsCreateTransform(labProfile, labFloat, profile, rgbFloat, 1, flags);
  const run = (transform: number, rows: readonly (readonly number[])[]): [number, number, number][] => {
    const out = lcms.cmsDoTransform(transform, Float32Array.from(rows.flat()), rows.length);
    return rows.map((_, i) => [out[3 * i]!, out[3 * i + 1]!, out[3 * i + 2]!]);
  };
  return { toLab: (rgb) => run(toLab, rgb), toDevice: (lab) => run(toDevice, lab) };
}

async function engine(): Promise<{ lcms: Engine; flags: number; open(icc: Uint8Array): number }> {
  const littleCms = (await import(packageName)) as LittleCms;
  const lcms = await littleCms.instantiate();
  return {
    lcms,
    flags: littleCms.cmsFLAGS_NOOPTIMIZE | littleCms.cmsFLAGS_NOCACHE,
    open: (icc) => {
      // The binding's own call copies the bytes to the stack, which is too small for a profile.
      const at = lcms._malloc(icc.length);
      lcms.HEAPU8.set(icc, at);
      const profile = lcms._cmsOpenProfileFromMem(at, icc.length);
      if (profile === 0) throw new Error('Little CMS does not open the profile');
      return profile;
    },
  };
}

async function make(): Promise<CmykPrinter> {
  const pixel = await sharp({ create: { width: 1, height: 1, channels: 3, background: '#888' } })
    .withIccProfile('cmyk')
    .tiff()
    .toBuffer();
  const icc = (await sharp(pixel).metadata()).icc;
  if (icc === undefined) throw new Error('libvips gave no CMYK profile');
  const { lcms, flags, open } = await engine();
  const cmykProfile = open(icc);
  const labProfile = lcms.cmsCreateLab4Profile(null);
  const srgbProfile = lcms.cmsCreate_sRGBProfile();
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
