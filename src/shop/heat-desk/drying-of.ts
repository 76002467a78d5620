import type { Blank, EstimateFacts } from '#contract';
import { dryingEstimate, type FittedContacts, type OwnSpreads, type Spreads, sampleRun } from '#craft/heat';
import { estimateOf } from './estimate.js';
import type { PressedRun } from './pressed-run.js';
import type { Body } from './usual-body.js';

/** Water that cloth holds in ordinary air (65 % humidity), by mass: usual handbook figures, from memory. */
const regain = { polyester: 0.004, cotton: 0.075 } as const;

export interface DryingQuestion {
  readonly blank: Blank;
  readonly body: Body;
  /** The case asked for with these times. */
  readonly make: (times: {
    readonly prePressSeconds: number;
    readonly dwellSeconds: number;
    readonly coolSeconds: number;
  }) => PressedRun;
}

/**
 * Seconds of pressing the empty cloth until its far side is dry; null for what is not cloth: hard blanks are dry, and paper
 * dries in the press. How damp the cloth is is taken as known within a factor of two.
 */
export function dryingOf(
  { blank, body, make }: DryingQuestion,
  about: { spreads: Spreads; fitted: FittedContacts; own: OwnSpreads; seed: number },
): EstimateFacts | null {
  if (blank.material !== 'textile') return null;
  const polyester = (blank.polyesterPercent ?? 100) / 100;
  const share = polyester * regain.polyester + (1 - polyester) * regain.cotton;
  const clothGPerM2 = body.material.densityKgPerM3 * body.thicknessMm;
  const { run } = make({ prePressSeconds: 120, dwellSeconds: 1, coolSeconds: 0 });
  const only = { ...run, phases: run.phases.slice(0, 1) };
  if (only.phases[0]!.name !== 'pre-press') return null;
  const { central, samples } = sampleRun({ ...about, run: only, samples: 20 }, (result) =>
    [0.5, 1, 2].map(
      (damp) => dryingEstimate(result, 'back', damp * clothGPerM2 * share)?.totalSeconds ?? 120,
    ),
  );
  return estimateOf(central[1]!, samples.flat());
}
