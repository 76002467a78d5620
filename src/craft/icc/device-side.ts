import { d50, invertMatrix, type Matrix3 } from '#craft/colour';
import { brokenProfile, unsupportedProfile } from './broken.js';
import { curveFunction, inverseCurveFunction } from './curve.js';
import { type InPlace, lutFunction, matrixFunction } from './lut-function.js';
import { decodePcs, encodePcs, pcsEncoding } from './pcs-encoding.js';
import type { DeviceSpace, IccCurve, IccLut, IccProfile, Intent } from './types.js';

/** One side of a chain: in place on a row, device values 0..1 on one end and real XYZ or Lab on the other. */
export interface Side {
  readonly run: InPlace;
  readonly pcs: 'XYZ' | 'Lab';
}

const channelCounts: Readonly<Record<DeviceSpace, 1 | 3 | 4>> = { GRAY: 1, RGB: 3, CMYK: 4 };
/** Absolute colorimetry uses the colorimetric table (ICC.1:2022 Table 25). */
const tableNumbers: Readonly<Record<Intent, 0 | 1 | 2>> = {
  perceptual: 0,
  relative: 1,
  saturation: 2,
  absolute: 1,
};

/** RGB, grey or CMYK; anything else is refused. */
export function deviceSpace(profile: IccProfile): DeviceSpace {
  const space = profile.header.colourSpace;
  if (space === 'RGB' || space === 'GRAY' || space === 'CMYK') return space;
  throw unsupportedProfile(
    `The ICC profile is for ${space === '' ? 'unnamed' : `“${space.replace(/[^ -~]/g, '?')}”`} colours.`,
    'Use a profile for RGB, grey or CMYK.',
  );
}

export const deviceChannels = (profile: IccProfile): 1 | 3 | 4 => channelCounts[deviceSpace(profile)];

/** The table of an intent; where it is missing the perceptual one stands in (ICC.1:2022 8.10.2, Little CMS the same). */
export function findTable(profile: IccProfile, direction: 'A2B' | 'B2A', intent: Intent): IccLut | undefined {
  return tableOf(profile, `${direction}${tableNumbers[intent]}`) ?? tableOf(profile, `${direction}0`);
}

/** True if there is a table for this very intent. */
export function hasOwnTable(profile: IccProfile, direction: 'A2B' | 'B2A', intent: Intent): boolean {
  return tableOf(profile, `${direction}${tableNumbers[intent]}`) !== undefined;
}

function tableOf(profile: IccProfile, signature: string): IccLut | undefined {
  const tag = profile.tags.get(signature);
  return tag?.kind === 'lut' ? tag : undefined;
}

function curveOf(profile: IccProfile, signature: string): IccCurve | undefined {
  const tag = profile.tags.get(signature);
  return tag?.kind === 'curve' ? tag.curve : undefined;
}

export function xyzOf(profile: IccProfile, signature: string): readonly [number, number, number] | undefined {
  const tag = profile.tags.get(signature);
  return tag?.kind === 'xyz' ? tag.xyz : undefined;
}

/** Curves and matrix of a profile made of them, whether or not it has tables besides. */
export interface Shaper {
  readonly curves: readonly [IccCurve, IccCurve, IccCurve];
  /** Linear RGB → XYZ under D50. */
  readonly matrix: Matrix3;
}

export function findShaper(profile: IccProfile): Shaper | undefined {
  if (profile.header.colourSpace !== 'RGB') return undefined;
  const [r, g, b] = [xyzOf(profile, 'rXYZ'), xyzOf(profile, 'gXYZ'), xyzOf(profile, 'bXYZ')];
  const [cr, cg, cb] = [curveOf(profile, 'rTRC'), curveOf(profile, 'gTRC'), curveOf(profile, 'bTRC')];
  if (!r || !g || !b || !cr || !cg || !cb) return undefined;
  return { curves: [cr, cg, cb], matrix: [r[0], g[0], b[0], r[1], g[1], b[1], r[2], g[2], b[2]] };
}

export function findGreyCurve(profile: IccProfile): IccCurve | undefined {
  return profile.header.colourSpace === 'GRAY' ? curveOf(profile, 'kTRC') : undefined;
}

/** Curves and matrix, or a grey curve: what Little CMS calls a matrix shaper. */
export const isShaper = (profile: IccProfile): boolean =>
  findShaper(profile) !== undefined || findGreyCurve(profile) !== undefined;

/** Device → PCS. A table outranks the matrix. */
export function sideToPcs(profile: IccProfile, intent: Intent): Side {
  const channels = deviceChannels(profile);
  const table = findTable(profile, 'A2B', intent);
  if (table !== undefined) {
    needChannels(table, channels, 3);
    const run = lutFunction(table, 'tetrahedral');
    const decode = decodePcs(pcsEncoding(profile.header.pcs, table.type));
    return { pcs: profile.header.pcs, run: chain(run, decode) };
  }
  const grey = findGreyCurve(profile);
  if (grey !== undefined) return greyToPcs(grey, profile.header.pcs);
  const shaper = findShaper(profile);
  if (shaper === undefined) {
    throw unsupportedProfile(
      'The ICC profile does not say what colour its device values are.',
      'Use a profile with tables, or with a matrix and curves.',
    );
  }
  const curves = shaper.curves.map(curveFunction);
  const run = chain((io) => {
    for (let i = 0; i < 3; i += 1) io[i] = curves[i]!(io[i]!);
  }, matrixFunction(shaper.matrix));
  return { pcs: 'XYZ', run };
}

/** PCS → device, not yet clipped. */
export function sideFromPcs(profile: IccProfile, intent: Intent): Side {
  const channels = deviceChannels(profile);
  const table = findTable(profile, 'B2A', intent);
  if (table !== undefined) {
    needChannels(table, 3, channels);
    const encode = encodePcs(pcsEncoding(profile.header.pcs, table.type));
    // Where Lab indexes a grid, neutrals run along one axis: trilinear keeps them smooth, and Little CMS does it so.
    const run = lutFunction(table, profile.header.pcs === 'Lab' ? 'trilinear' : 'tetrahedral');
    return { pcs: profile.header.pcs, run: chain(encode, run) };
  }
  const grey = findGreyCurve(profile);
  if (grey !== undefined) return greyFromPcs(grey, profile.header.pcs);
  const shaper = findShaper(profile);
  if (shaper === undefined) {
    throw unsupportedProfile(
      'The ICC profile has no way from colours to device values.',
      'Use an output profile: one that has tables in both directions.',
    );
  }
  const inverse = invertMatrix(shaper.matrix);
  if (inverse === null) throw brokenProfile('its primaries lie on one line');
  const curves = shaper.curves.map(inverseCurveFunction);
  const run = chain(matrixFunction(inverse), (io) => {
    for (let i = 0; i < 3; i += 1) io[i] = curves[i]!(io[i]!);
  });
  return { pcs: 'XYZ', run };
}

/** A grey curve gives Y along the PCS white, or L* where the PCS is Lab. */
function greyToPcs(curve: IccCurve, pcs: 'XYZ' | 'Lab'): Side {
  const tone = curveFunction(curve);
  if (pcs === 'Lab') {
    return {
      pcs,
      run: (io) => {
        io[0] = 100 * tone(io[0]!);
        io[1] = 0;
        io[2] = 0;
      },
    };
  }
  return {
    pcs,
    run: (io) => {
      const y = tone(io[0]!);
      io[0] = y * d50[0];
      io[1] = y;
      io[2] = y * d50[2];
    },
  };
}

function greyFromPcs(curve: IccCurve, pcs: 'XYZ' | 'Lab'): Side {
  const tone = inverseCurveFunction(curve);
  return {
    pcs,
    run: (io) => {
      io[0] = tone(pcs === 'Lab' ? io[0]! / 100 : io[1]!);
    },
  };
}

function needChannels(table: IccLut, inputs: number, outputs: number): void {
  if (table.inputChannels !== inputs || table.outputChannels !== outputs) {
    throw brokenProfile(
      `a table goes from ${table.inputChannels} to ${table.outputChannels} channels where ${inputs} to ${outputs} are due`,
    );
  }
}

function chain(first: InPlace, second: InPlace): InPlace {
  return (io) => {
    first(io);
    second(io);
  };
}
