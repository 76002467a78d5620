import { Problem } from '#craft/problem';
import type { LadderFit } from './fit-ladder.js';

/** A fit as plain JSON. */
export interface KeptFit {
  readonly kind: 'dyewright.ladder-fit';
  readonly version: 4;
  readonly fit: LadderFit;
}

/** What the numbers of a draw mean; raised when curves change, as they did when warming up and pressure came into them. */
const version = 4;

export const keptFit = (fit: LadderFit): KeptFit => ({ kind: 'dyewright.ladder-fit', version, fit });

/** @throws Problem `ladder.unusable` when this is no fit, or of a version that this program does not read */
export function fitOf(kept: unknown): LadderFit {
  const { kind, version: said, fit } = (kept ?? {}) as Partial<KeptFit>;
  if (kind !== 'dyewright.ladder-fit' || typeof fit !== 'object' || fit === null)
    refuse('This is no fit of a ladder.');
  if (said !== version) refuse(`This fit of a ladder is of version ${said}; this program reads ${version}.`);
  const { draws, responses, coupons } = fit as LadderFit;
  const isWhole =
    [draws, responses, coupons].every(Array.isArray) &&
    draws.length > 0 &&
    draws.every(
      ({ theta, activationKJPerMol, middleLogDose, pressureExponent, warmUp, reach }) =>
        [activationKJPerMol, middleLogDose, pressureExponent].every(Number.isFinite) &&
        warmUp?.timeConstantSeconds > 0 &&
        reach?.length === 2 &&
        reach.every(Number.isFinite) &&
        Number.isFinite(warmUp.startC) &&
        theta.length === responses.length &&
        theta.every(
          (one, r) => one.length === responses[r]!.curve.prior.length && one.every(Number.isFinite),
        ),
    );
  if (!isWhole) refuse('This fit of a ladder is damaged.');
  return fit as LadderFit;
}

function refuse(message: string): never {
  throw new Problem('ladder.unusable', message, { remedy: 'Fit the ladder again from its coupons.' });
}
