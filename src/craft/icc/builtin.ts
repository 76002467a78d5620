import {
  applyMatrix,
  bradfordMatrix,
  d50,
  d65,
  displayP3Primaries,
  multiplyMatrices,
  opRgbPrimaries,
  type RgbPrimaries,
  rgbToXyzMatrix,
  srgbPrimaries,
} from '#craft/colour';
import { gammaCurve } from './read-curve.js';
import type { IccCurve, IccHeader, IccProfile, IccTag } from './types.js';

export type BuiltinProfileName =
  | 'srgb'
  | 'display-p3'
  | 'adobe-rgb-compatible'
  | 'grey-srgb'
  | 'grey-gamma-2.2';

/** IEC 61966-2-1:1999, 5.2 as parametric function type 3. */
export const srgbCurve: IccCurve = {
  kind: 'parametric',
  functionType: 3,
  parameters: [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045],
};
/** 563/256 stands in the published Adobe RGB (1998) encoding, 4.3.4.2. */
const opRgbCurve = gammaCurve(563 / 256);

const copyright = 'No copyright, use freely';

/**
 * Profiles made from published primaries and curves, version 4 unless asked otherwise. Their numbers are exact here and
 * rounded to 1/65536 when written.
 */
export function builtinProfile(name: BuiltinProfileName, version: 2 | 4 = 4): IccProfile {
  switch (name) {
    case 'srgb':
      return matrixProfile('sRGB', srgbPrimaries, srgbCurve, version);
    case 'display-p3':
      return matrixProfile('Display P3', displayP3Primaries, srgbCurve, version);
    case 'adobe-rgb-compatible':
      return matrixProfile('opRGB (compatible with Adobe RGB 1998)', opRgbPrimaries, opRgbCurve, version);
    case 'grey-srgb':
      return greyProfile('Grey with the sRGB curve', srgbCurve, version);
    case 'grey-gamma-2.2':
      return greyProfile('Grey, gamma 2.2', gammaCurve(2.2), version);
  }
}

/** A display profile of three primaries and one curve. */
export function matrixProfile(
  description: string,
  primaries: RgbPrimaries,
  curve: IccCurve,
  version: 2 | 4,
): IccProfile {
  const adapt = bradfordMatrix(primaries.white, d50);
  const matrix = multiplyMatrices(adapt, rgbToXyzMatrix(primaries));
  const tone: IccTag = { kind: 'curve', curve };
  return {
    header: header('RGB', version),
    tags: new Map<string, IccTag>([
      ...common(description, version, primaries.white, adapt),
      ['rXYZ', { kind: 'xyz', xyz: applyMatrix(matrix, [1, 0, 0]) }],
      ['gXYZ', { kind: 'xyz', xyz: applyMatrix(matrix, [0, 1, 0]) }],
      ['bXYZ', { kind: 'xyz', xyz: applyMatrix(matrix, [0, 0, 1]) }],
      ['rTRC', tone],
      ['gTRC', tone],
      ['bTRC', tone],
    ]),
  };
}

/** A display profile of one grey curve. */
export function greyProfile(description: string, curve: IccCurve, version: 2 | 4): IccProfile {
  return {
    header: header('GRAY', version),
    tags: new Map<string, IccTag>([
      ...common(description, version, d65, bradfordMatrix(d65, d50)),
      ['kTRC', { kind: 'curve', curve }],
    ]),
  };
}

/** Version 4 states the adapted white, D50, and the adaptation; version 2 the white itself (ICC.1:2001-04 6.4.40). */
function common(
  description: string,
  version: 2 | 4,
  white: readonly [number, number, number],
  adapt: readonly number[],
): [string, IccTag][] {
  const tags: [string, IccTag][] = [
    ['desc', { kind: 'text', text: description }],
    ['cprt', { kind: 'text', text: copyright }],
    ['wtpt', { kind: 'xyz', xyz: version === 4 ? d50 : white }],
  ];
  if (version === 4) tags.push(['chad', { kind: 'numbers', values: adapt }]);
  return tags;
}

const header = (colourSpace: string, version: 2 | 4): IccHeader => ({
  byteLength: 0,
  version: version === 4 ? { major: 4, minor: 4, fix: 0 } : { major: 2, minor: 4, fix: 0 },
  deviceClass: 'mntr',
  colourSpace,
  pcs: 'XYZ',
  renderingIntent: 0,
});
