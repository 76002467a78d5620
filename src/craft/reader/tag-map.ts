import {
  applyMatrix,
  bradfordMatrix,
  d50,
  d65,
  labFromXyz,
  linearToSrgb,
  type Matrix3,
  multiplyMatrices,
  rgbToXyzMatrix,
  srgbPrimaries,
  type Triple,
  type Triple3,
  xyzFromLab,
} from '#craft/colour';
import { deviceToLab, parseProfile } from '#craft/icc';
import type { LinearRgb } from '#craft/patchreading';
import { p95OverMean } from './expected.js';
import { makeReaderMap } from './make-reader-map.js';
import { lightOfStep } from './tag-function.js';
import type { ReaderMap, TagMapData } from './types.js';

export interface TagMapOptions {
  readonly kind: 'scanner' | 'phone';
  /** The bare ground as the reader saw it. */
  readonly groundRgb: LinearRgb;
  /** What the picture's own profile says: linear light → XYZ (D50, Y = 1), see `tagToXyz`. Left out: sRGB's primaries. */
  readonly toXyz?: ((linear: LinearRgb) => Triple) | undefined;
}

/**
 * Published means (docs/decisions/0009): a generic calibration of a scanner errs by more than 7 ΔE (US patent
 * 7,719,716; which formula is not said), a phone's colours used directly by more than 10 ΔE00. Of 150 virtual
 * scanners and prints taken at their word one errs by 8.2 on average, nine of ten by less than 9.5: that is said, since a
 * person has but one scanner and cannot know which.
 */
const published = { scanner: 9.5, phone: 10 } as const;

/** Lightness given to the bare ground: coatings and papers are 92 to 97 (common practice). It is not measured. */
const groundL = 95;

const gridSize = 17;
const plainMatrix = multiplyMatrices(bradfordMatrix(d65, d50), rgbToXyzMatrix(srgbPrimaries));

/** Grade D: the reader's own word, shifted so that the bare ground comes out neutral (XYZ scaling). */
export function tagReaderMap(options: TagMapOptions): ReaderMap {
  const { kind, groundRgb, toXyz } = options;
  const own = toXyz ?? ((rgb: LinearRgb): Triple => applyMatrix(plainMatrix, rgb));
  const ground = own(groundRgb);
  const wanted = xyzFromLab([groundL, 0, 0]);
  const isLit = ground.every((v) => v > 1e-3);
  const scale = (isLit ? wanted.map((v, j) => v / ground[j]!) : [1, 1, 1]) as Triple3;
  const matrix = matrixOf(own);
  const meanDeltaE00 = published[kind];
  // Lightness is anchored on the ground and errs less; Lab distances of strong colours are about twice ΔE00.
  const sd = meanDeltaE00 / 1.596;
  const how: TagMapData = {
    kind: 'tag',
    trusted: toXyz ? 'tag' : 'srgb',
    matrix,
    grid: matrix === null ? gridOf(own) : null,
    scale,
    sdLab: [0.7 * sd, 1.5 * sd, 1.5 * sd],
  };
  return makeReaderMap({
    format: 'dyewright-reader-map',
    version: 1,
    grade: 'D',
    how,
    expectedError: { meanDeltaE00, p95DeltaE00: p95OverMean * meanDeltaE00, restsOn: 'published' },
    remarks: [
      `Nobody compared this ${kind} with measured colours: it was taken at its word, and the bare ground for neutral.`,
      ...(isLit ? [] : ['The bare ground is too dark in the picture to go by.']),
      ...(toXyz
        ? []
        : [`The picture does not say what its colours mean, so they were taken as a screen’s (sRGB).`]),
    ],
  });
}

/** The matrix a function is, or null when it is none. */
function matrixOf(toXyz: (rgb: LinearRgb) => Triple): number[] | null {
  const [r, g, b] = [toXyz([1, 0, 0]), toXyz([0, 1, 0]), toXyz([0, 0, 1])];
  const matrix: Matrix3 = [r[0], g[0], b[0], r[1], g[1], b[1], r[2], g[2], b[2]];
  const probes: LinearRgb[] = [
    [0, 0, 0],
    [1, 1, 1],
    [0.2, 0.5, 0.1],
    [0.02, 0.01, 0.04],
  ];
  const isMatrix = probes.every((probe) => {
    const said = toXyz(probe);
    return applyMatrix(matrix, probe).every((v, j) => Math.abs(v - said[j]!) < 1e-4);
  });
  return isMatrix ? [...matrix] : null;
}

function gridOf(toXyz: (rgb: LinearRgb) => Triple): NonNullable<TagMapData['grid']> {
  const lab: number[] = [];
  const at = (step: number): number => lightOfStep(step, gridSize);
  for (let i = 0; i < gridSize; i += 1)
    for (let j = 0; j < gridSize; j += 1)
      for (let k = 0; k < gridSize; k += 1) lab.push(...labFromXyz(toXyz([at(i), at(j), at(k)])));
  return { size: gridSize, lab };
}

/**
 * What a picture's ICC profile says of linear light as the shop opens chart pictures: through the profile's own curves
 * where it has plain ones, else through sRGB's.
 * @returns undefined when there is no profile, or none that says anything of RGB
 */
export function tagToXyz(icc: Uint8Array | null): ((linear: LinearRgb) => Triple) | undefined {
  if (icc === null) return undefined;
  try {
    const profile = parseProfile(icc);
    if (profile.header.colourSpace !== 'RGB') return undefined;
    const columns = ['rXYZ', 'gXYZ', 'bXYZ'].map((name) => profile.tags.get(name));
    const curved = ['rTRC', 'gTRC', 'bTRC'].every((name) => profile.tags.get(name)?.kind === 'curve');
    if (curved && columns.every((tag) => tag?.kind === 'xyz')) {
      const [r, g, b] = columns.map((tag) => (tag?.kind === 'xyz' ? tag.xyz : [0, 0, 0])) as [
        Triple,
        Triple,
        Triple,
      ];
      const matrix: Matrix3 = [r[0], g[0], b[0], r[1], g[1], b[1], r[2], g[2], b[2]];
      return (rgb) => applyMatrix(matrix, rgb);
    }
    if (curved) return undefined;
    const toLab = deviceToLab(profile);
    const through = (rgb: LinearRgb): Triple => xyzFromLab(toLab(rgb.map((v) => linearToSrgb(v))));
    through([0.5, 0.5, 0.5]);
    return through;
  } catch {
    return undefined;
  }
}
