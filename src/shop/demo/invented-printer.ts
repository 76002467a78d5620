import {
  applyMatrix,
  bradfordMatrix,
  d50,
  d65,
  inverseOf,
  labFromXyz,
  type Matrix3,
  multiplyMatrices,
  oklabFromXyzD65,
  opRgbPrimaries,
  rgbToXyzMatrix,
  type Triple,
  type Triple3,
  xyzD50FromD65,
  xyzD65FromD50,
  xyzD65FromOklab,
  xyzFromLab,
} from '#craft/colour';
import { writeRgbLutProfile } from '#craft/icc';

/**
 * A printer that does not exist, so that the demo has a colour path to show: three dyes that absorb in three
 * broad bands and spill into each other's, after Beer and Lambert; more dye where more ink is asked for, less
 * than in proportion. Every number in it is made up.
 */
const inventedName = 'Demo: invented printer';

/** Bands of light (long, middle, short) → XYZ under D50. */
const bandsToXyz: Matrix3 = multiplyMatrices(bradfordMatrix(d65, d50), rgbToXyzMatrix(opRgbPrimaries));
const xyzToBands = inverseOf(bandsToXyz);

/** Density (natural logarithm) that a full load of each dye (cyan, magenta, yellow) has in each band. */
const dyeToBands: Matrix3 = [3.3, 0.42, 0.1, 0.5, 3.05, 0.34, 0.22, 0.62, 3.0];
const bandsToDye = inverseOf(dyeToBands);

/** Amount of dye, 0..1, that lands for ink asked for, 0..1: slow at first, but never flat. */
const firstShare = 0.45;
const dyeForInk = (ink: number): number => firstShare * ink + (1 - firstShare) * ink * ink;
const inkForDye = (dye: number): number =>
  (Math.sqrt(firstShare ** 2 + 4 * (1 - firstShare) * dye) - firstShare) / (2 * (1 - firstShare));

/** Printer RGB 0..1 → XYZ relative to the coating's white. */
function xyzOf(rgb: Triple): Triple3 {
  const density = applyMatrix(dyeToBands, [
    dyeForInk(1 - rgb[0]),
    dyeForInk(1 - rgb[1]),
    dyeForInk(1 - rgb[2]),
  ]);
  return applyMatrix(bandsToXyz, [Math.exp(-density[0]), Math.exp(-density[1]), Math.exp(-density[2])]);
}

/** The dyes that give a colour, or null when no amounts from 0 to 1 do. */
function dyesFor(xyz: Triple): Triple3 | null {
  const bands = applyMatrix(xyzToBands, xyz);
  if (bands.some((light) => light <= 0)) return null;
  const dyes = applyMatrix(bandsToDye, [-Math.log(bands[0]), -Math.log(bands[1]), -Math.log(bands[2])]);
  const slack = 1e-6;
  return dyes.every((dye) => dye >= -slack && dye <= 1 + slack) ? dyes : null;
}

const blackOklabL = oklabOf(xyzOf([0, 0, 0]))[0];

/** Lab → printer RGB: lightness into the reach, then chroma drawn in at constant hue and lightness (Oklab) until it fits. */
function rgbFor(lab: Triple, style: { compressLightness: boolean; chroma: number }): Triple3 {
  const [lightness, a, b] = oklabOf(xyzFromLab(lab));
  const floor = darkestNeutral;
  const within = style.compressLightness
    ? floor + Math.max(0, lightness) * (1 - floor)
    : Math.min(1, Math.max(floor, lightness));
  const dyesAt = (share: number) =>
    dyesFor(xyzD50FromD65(xyzD65FromOklab([within, a * style.chroma * share, b * style.chroma * share])));
  let dyes = dyesAt(1);
  if (dyes === null) {
    let inside = 0;
    let outside = 1;
    for (let step = 0; step < 18; step += 1) {
      const share = (inside + outside) / 2;
      const tried = dyesAt(share);
      if (tried === null) outside = share;
      else {
        inside = share;
        dyes = tried;
      }
    }
  }
  dyes ??= dyesAt(0) ?? (within > 0.5 ? [0, 0, 0] : [1, 1, 1]);
  return dyes.map((dye) => 1 - inkForDye(Math.min(1, Math.max(0, dye)))) as Triple3;
}

/** Oklab lightness of the darkest grey that the dyes can make (their full load together is not neutral). */
const darkestNeutral = (() => {
  let dark = blackOklabL;
  let light = 1;
  for (let step = 0; step < 40; step += 1) {
    const middle = (dark + light) / 2;
    if (dyesFor(xyzD50FromD65(xyzD65FromOklab([middle, 0, 0]))) === null) dark = middle;
    else light = middle;
  }
  return light;
})();

function oklabOf(xyzD50: Triple): Triple3 {
  return oklabFromXyzD65(xyzD65FromD50(xyzD50));
}

/** The invented printer's RGB output profile, ICC version 2, said to be invented in its own description. */
export function inventedPrinterProfile(): Uint8Array {
  const a2b = (rgb: Triple): Triple => labFromXyz(xyzOf(rgb));
  const tables = (style: { compressLightness: boolean; chroma: number }) => ({
    a2b,
    b2a: (lab: Triple): Triple => rgbFor(lab, style),
  });
  return writeRgbLutProfile({
    version: 2,
    description: inventedName,
    copyright: 'Made for the demo of Dyewright. The printer does not exist.',
    perceptual: tables({ compressLightness: true, chroma: 0.95 }),
    relative: tables({ compressLightness: false, chroma: 1 }),
    saturation: tables({ compressLightness: true, chroma: 1.1 }),
    mediaWhiteXyz: xyzFromLab([94, 0.3, -2]),
    a2bGridPoints: 17,
    b2aGridPoints: 33,
  });
}

export const inventedPrinterName = inventedName;
