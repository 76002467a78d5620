import type { RenderProgress } from './types.js';

const words = { resampling: 'Resampling the artwork', writing: 'Writing the sheet' } as const;
type Step = keyof typeof words;

/** Reports steps of given weights as one fraction that never falls. */
export function progressSteps(
  report: ((progress: RenderProgress) => void) | undefined,
  weights: Record<Step, number>,
): (step: Step, fraction: number) => void {
  let highest = 0;
  return (step, fraction) => {
    const before = step === 'writing' ? weights.resampling : 0;
    highest = Math.max(highest, Math.min(1, before + weights[step] * Math.min(1, Math.max(0, fraction))));
    report?.({ fraction: highest, step: words[step] });
  };
}
