import type { DoseKinetics } from './dose.js';
import { withFactors } from './factors.js';
import { boundWithError, dwellOf, type PressCase, pressDose, withDwell } from './press-case.js';
import { firstReaches, valueAt } from './series.js';

export interface PlatenErrorCost {
  readonly errorK: number;
  /** Dose at a platen hotter, or cooler, than believed, over the dose wanted. */
  readonly doseRatioHotter: number;
  readonly doseRatioCooler: number;
  /** Seconds to take away when hotter, to add when cooler, for the dose wanted; null if more than doubling would be needed. */
  readonly secondsToTakeAway: number | null;
  readonly secondsToAdd: number | null;
}

/** What it costs when the platen is not as hot as it says. Nothing is counted for what heat does beside the dose. */
export function platenErrorCost(pressCase: PressCase, kinetics: DoseKinetics, errorK = 5): PlatenErrorCost {
  const wanted = pressDose(pressCase, kinetics).dose.at(-1)!;
  const dwell = dwellOf(pressCase);
  const longer = withDwell(pressCase, 2 * dwell);
  const shifted = (platenShiftK: number): { ratio: number; dwell: number | null } => {
    const run = withFactors(longer.run, { platenShiftK });
    const { seconds, dose } = pressDose({ ...longer, run }, kinetics, {
      boundC: boundWithError(platenShiftK),
    });
    return { ratio: valueAt(seconds, dose, dwell) / wanted, dwell: firstReaches(seconds, dose, wanted) };
  };
  const hotter = shifted(errorK);
  const cooler = shifted(-errorK);
  return {
    errorK,
    doseRatioHotter: hotter.ratio,
    doseRatioCooler: cooler.ratio,
    secondsToTakeAway: hotter.dwell === null ? null : dwell - hotter.dwell,
    secondsToAdd: cooler.dwell === null ? null : cooler.dwell - dwell,
  };
}
