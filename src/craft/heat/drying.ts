import { firstReaches, valueAt } from './series.js';
import type { HeatResult } from './types.js';

/** Heat to turn water at 100 °C into steam, J/kg (steam tables, IAPWS; from memory). */
export const latentHeatJPerKg = 2.257e6;
/** Water in ordinary paper by mass when the room is neither dry nor damp: common practice, from memory. */
export const usualPaperMoisture = 0.06;

export interface DryingEstimate {
  /** From the start of the run until the probe is at 100 °C, as though it were dry. */
  readonly heatSeconds: number;
  /** What boiling the water off takes on top, at the heat that goes into the stack at that moment. */
  readonly boilSeconds: number;
  readonly totalSeconds: number;
  readonly note: string;
}

/**
 * How long a pre-press dries. Rough: some heat passes the wet layer by, and water leaves below 100 °C too.
 * @param waterGPerM2 water to be driven off, g per m² of the face: mass per m² times its moisture
 * @returns null if the probe does not reach 100 °C within the run, or no heat flows then
 */
export function dryingEstimate(
  result: Pick<HeatResult, 'seconds' | 'probes' | 'intoStackWPerM2'>,
  probe: string,
  waterGPerM2: number,
): DryingEstimate | null {
  const heatSeconds = firstReaches(result.seconds, result.probes[probe]!, 100);
  if (heatSeconds === null) return null;
  const heatWPerM2 = valueAt(result.seconds, result.intoStackWPerM2, heatSeconds);
  if (!(heatWPerM2 > 0)) return null;
  const boilSeconds = ((waterGPerM2 / 1000) * latentHeatJPerKg) / heatWPerM2;
  return {
    heatSeconds,
    boilSeconds,
    totalSeconds: heatSeconds + boilSeconds,
    note: 'A rough estimate: watch for steam, and follow the maker’s instructions.',
  };
}
