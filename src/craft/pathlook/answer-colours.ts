import { deltaE00, type Triple, type Triple3 } from '#craft/colour';
import { alternativesFor, type ColourNeighbour } from './alternatives.js';
import { besideWhite } from './beside-white.js';
import { codesFor } from './look-at-path.js';
import type { KnownPath } from './types.js';

/** Lab absolute; device values 0..255; hexadecimal colours beside the printed white. */
export interface AnsweredColour {
  readonly wantedLab: Triple3;
  readonly wantedHex: string;
  readonly deviceRgb: Triple3;
  readonly comesOutLab: Triple3;
  readonly comesOutHex: string;
  readonly reached: boolean;
  readonly missDeltaE00: number;
  readonly expectedDeltaE00: number | null;
  readonly alternatives: ColourNeighbour[];
}

export interface WantedColour {
  readonly lab: Triple;
  /** False: `lab` is beside the printed white. */
  readonly isAbsolute: boolean;
}

/**
 * A colour counts as reached when it is missed by less: 8-bit codes alone miss by up to some tenths, and nobody sees 1
 * (common practice).
 */
const reachedDeltaE00 = 1;

/** What comes out when colours are asked for, on the 8-bit codes that a sheet carries. */
export function answerColours(path: KnownPath, wanted: readonly WantedColour[]): AnsweredColour[] {
  const beside = besideWhite(path.inverse.mediaWhiteXyz);
  const absolute = wanted.map(
    ({ lab, isAbsolute }): Triple3 => (isAbsolute ? [lab[0], lab[1], lab[2]] : beside.absolute(lab)),
  );
  const codes = codesFor(path, absolute, beside);
  const said = path.model.predict(codes.map((code) => code.map((v) => v / 255) as Triple3));
  return absolute.map((lab, i) => {
    const out = said[i]!;
    // Differences as eyes see them: beside the printed white.
    const miss = deltaE00(beside.relative(lab), beside.relative(out.lab));
    const reached = miss < reachedDeltaE00;
    return {
      wantedLab: lab,
      wantedHex: beside.hex(lab),
      deviceRgb: codes[i]!,
      comesOutLab: [...out.lab],
      comesOutHex: beside.hex(out.lab),
      reached,
      missDeltaE00: miss,
      expectedDeltaE00: path.isDoubtKnown
        ? Math.hypot(miss, out.expectedDeltaE00, path.readingErrorDeltaE00)
        : null,
      alternatives: reached ? [] : alternativesFor(path, lab, out.lab, beside),
    };
  });
}
