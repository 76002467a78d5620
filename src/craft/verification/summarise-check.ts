import { deltaE00, type Triple } from '#craft/colour';
import type { CheckKind } from './choose-check-colours.js';

export interface CheckedPatch {
  readonly wantedLab: Triple;
  readonly seenLab: Triple;
  readonly deltaE00: number;
  readonly kind: CheckKind;
}

export interface Spread {
  readonly count: number;
  readonly mean: number;
  /** 95 of 100 lie at or below. */
  readonly p95: number;
  readonly max: number;
}

export interface CheckSummary {
  /** All colours within reach, neutrals among them. */
  readonly overall: Spread;
  readonly neutrals: Spread | null;
  readonly limited: Spread | null;
}

export const checkedPatch = (wantedLab: Triple, seenLab: Triple, kind: CheckKind): CheckedPatch => ({
  wantedLab,
  seenLab,
  deltaE00: deltaE00(wantedLab, seenLab),
  kind,
});

/** Null when no colour within reach could be read. */
export function summariseCheck(patches: readonly CheckedPatch[]): CheckSummary | null {
  const of = (fits: (kind: CheckKind) => boolean): Spread | null =>
    spreadOf(patches.filter((patch) => fits(patch.kind)).map((patch) => patch.deltaE00));
  const overall = of((kind) => kind !== 'limited');
  if (overall === null) return null;
  return { overall, neutrals: of((kind) => kind === 'neutral'), limited: of((kind) => kind === 'limited') };
}

export function spreadOf(values: readonly number[]): Spread | null {
  if (values.length === 0) return null;
  const sorted = values.toSorted((a, b) => a - b);
  return {
    count: sorted.length,
    mean: sorted.reduce((sum, v) => sum + v, 0) / sorted.length,
    // The smallest value that at least 95 % do not exceed (nearest rank).
    p95: sorted[Math.ceil(0.95 * sorted.length) - 1]!,
    max: sorted.at(-1)!,
  };
}
