import type { ColourPath, PathLook } from '#contract';
import { type Triple, xyzFromLab } from '#craft/colour';
import type { PathPicture } from '#craft/pathlook';
import { besideWhite } from '#craft/pathlook';
import { gradeMeanings } from '#craft/verification';

/** The look of a path in the contract's shape, with what to say about it. */
export function pathLookOf(path: ColourPath, picture: PathPicture): PathLook {
  const { measurement } = path;
  const white = xyzFromLab(measurement?.gamut.whiteLab ?? whiteOf(picture));
  const beside = besideWhite(white);
  return {
    pathId: path.id,
    grade: measurement?.grade ?? null,
    expectedError: measurement?.expectedError ?? null,
    sentences: [...trust(path), ...neutralSentences(picture), ...outlierSentences(path)],
    gamut: picture.gamut,
    srgbGamut: picture.srgbGamut,
    neutrals: picture.neutrals,
    doubt: picture.doubt,
    leftOut: (measurement?.outliers ?? []).map((one) => ({
      sampleId: one.sampleId,
      measuredHex: beside.hex(one.measuredLab),
      expectedHex: beside.hex(one.expectedLab),
      deltaE00: one.deltaE00,
    })),
  };
}

function trust({ measurement }: ColourPath): string[] {
  if (measurement === undefined) {
    return [
      'An imported profile: nobody measured it here. How far its colours are off is not known; a check sheet tells.',
    ];
  }
  const { grade, expectedError, gamut } = measurement;
  const first = `Colours should come out within ${tenth(expectedError.meanDeltaE00)} ΔE00 on average, 95 % of them within ${tenth(expectedError.p95DeltaE00)} (grade ${grade}, ${gradeMeanings[grade]}).`;
  const rests = {
    measured: 'That is what the patches themselves show; what changes from print to print comes on top.',
    calibration:
      "That rests on the patches and on the reader's calibration, tested on patches left out of it.",
    published:
      'That rests in part on figures published and simulated for readers of this kind, not on your own.',
    'rule-of-thumb': 'That is a rule of thumb: a check sheet shows how far it is off in truth.',
  }[expectedError.restsOn];
  return [
    first,
    rests,
    `It reaches ${Math.round(100 * gamut.srgbShare)} % of the colours a screen (sRGB) shows.`,
  ];
}

function neutralSentences({ neutrals }: PathPicture): string[] {
  const cast = (lab: Triple): number =>
    Math.hypot(lab[1] - (lightest?.[1] ?? 0), lab[2] - (lightest?.[2] ?? 0));
  const lightest = neutrals.at(-1)?.lab;
  const middle = neutrals.filter((one) => one.wantedL >= 20 && one.wantedL <= 90);
  if (middle.length === 0) return [];
  const plain = Math.max(...middle.map((one) => cast(one.plainLab)));
  const own = Math.max(...middle.map((one) => cast(one.lab)));
  return plain > own + 1
    ? [
        `Greys: the plain driver tints them by up to ${tenth(plain)} (a*b* from white), the path leaves ${tenth(own)} by its own reckoning.`,
      ]
    : [];
}

function outlierSentences({ measurement }: ColourPath): string[] {
  const count = measurement?.outliers.length ?? 0;
  if (count === 0) return [];
  return [
    `${count} ${count === 1 ? 'patch was' : 'patches were'} left out because ${count === 1 ? 'it does' : 'they do'} not fit what the others say.`,
  ];
}

const whiteOf = (picture: PathPicture): Triple => picture.neutrals.at(-1)?.lab ?? [100, 0, 0];
const tenth = (v: number): string => v.toFixed(1);
