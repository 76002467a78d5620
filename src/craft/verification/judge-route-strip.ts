import { deltaE00, type Triple } from '#craft/colour';

export interface StripPatch {
  readonly name: string;
  /** What the path's model says of the patch's raw device values, and what was read; both beside their own white. */
  readonly expectedLab: Triple;
  readonly seenLab: Triple;
  /** The model's own doubt there, mean ΔE00. */
  readonly doubtDeltaE00: number;
}

export interface StripJudgement {
  readonly meanDeltaE00: number;
  /** Mean difference beyond which the route has changed. */
  readonly allowedDeltaE00: number;
  readonly isChanged: boolean;
  readonly worst: { readonly name: string; readonly deltaE00: number };
}

/** Small patches at the sheet's edge, pressed another day: mean ΔE00 that is nothing to speak of (common practice). */
const printToPrint = 1;
/** The mean of a dozen differences hardly passes its expected value by more (ours, no source). */
const beyond = 1.8;
const fewest = 6;

/**
 * The raw patches at the edge of a later sheet against what the path says of their device values.
 * @param readingErrors mean errors of the readings that path and strip rest on, ΔE00
 * @returns null when too few patches could be read
 */
export function judgeRouteStrip(
  patches: readonly StripPatch[],
  readingErrors: readonly number[],
): StripJudgement | null {
  if (patches.length < fewest) return null;
  const off = patches.map((patch) => deltaE00(patch.expectedLab, patch.seenLab));
  const meanDeltaE00 = off.reduce((sum, v) => sum + v, 0) / off.length;
  const doubt = Math.hypot(...patches.map((patch) => patch.doubtDeltaE00)) / Math.sqrt(patches.length);
  const allowedDeltaE00 = beyond * Math.hypot(doubt, printToPrint, ...readingErrors);
  const worst = off.reduce((top, v, i) => (v > off[top]! ? i : top), 0);
  return {
    meanDeltaE00,
    allowedDeltaE00,
    isChanged: meanDeltaE00 > allowedDeltaE00,
    worst: { name: patches[worst]!.name, deltaE00: off[worst]! },
  };
}
