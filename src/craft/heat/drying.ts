import { firstReaches } from './series.js';
import type { HeatResult } from './types.js';

/** Heat to turn water at 100 °C into steam, J/kg (steam tables, IAPWS; from memory). */
export const latentHeatJPerKg = 2.257e6;
/** Water in ordinary paper by mass when the room is neither dry nor damp: common practice figure, from memory. */
export const usualPaperMoisture = 0.06;

export interface DryingEstimate {
  /** Until the probe is at 100 °C, as though it were dry. */
  readonly heatSeconds: number;
  /** What boiling the water off takes on top at the heat that flows there. */
  readonly boilSeconds: number;
  readonly totalSeconds: number;
  readonly note: string;
}

/**
 * How long a pre-press dries. Rough: water leaves below 100 °C too, and some stays; the driest sheet is the one that no
 * longer steams.
 * @param waterGPerM2 water to be driven off, g per m² of the face
 * @param heatWPerM2 heat that reaches the wet layer once it is at 100 °C
 * @returns null if the probe does not reach 100 °C within the run, or no heat flows
 */
export function dryingEstimate(
  result: Pick<HeatResult, 'seconds' | 'probes'>,
  probe: string,
  waterGPerM2: number,
  heatWPerM2: number,
): DryingEstimate | null {
  const heatSeconds = firstReaches(result.seconds, result.probes[probe]!, 100);
  if (heatSeconds === null || !(heatWPerM2 > 0)) return null;
  const boilSeconds = ((waterGPerM2 / 1000) * latentHeatJPerKg) / heatWPerM2;
  return {
    heatSeconds,
    boilSeconds,
    totalSeconds: heatSeconds + boilSeconds,
    note: 'A rough estimate: watch for steam, and follow the maker’s instructions.',
  };
}
