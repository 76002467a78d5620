import type { HeatResult } from './types.js';

export interface PieceEnergy {
  /** What the heaters must supply for it sooner or later: the two below. */
  readonly electricWh: number;
  /** What went into piece, paper and pad. */
  readonly intoStackWh: number;
  /** What the platens lost to the room meanwhile. */
  readonly lostWh: number;
}

/**
 * Energy of one piece among many, of this area, over the phases in which the press is taken up by it. A platen larger
 * than the blank counts whole (`areaRatio`): the run's figures are per m² of the blank already. An oven's own losses are
 * not in it.
 * @param pastPhases phases after the piece has left the press; default `cool`
 */
export function pieceEnergy(
  result: Pick<HeatResult, 'phases'>,
  blankAreaCm2: number,
  pastPhases: readonly string[] = ['cool'],
): PieceEnergy {
  const toWh = blankAreaCm2 / 1e4 / 3600;
  let intoStackWh = 0;
  let lostWh = 0;
  for (const phase of result.phases) {
    if (pastPhases.includes(phase.name)) continue;
    intoStackWh += phase.intoStackJPerM2 * toWh;
    lostWh += phase.platenLossJPerM2 * toWh;
  }
  return { electricWh: intoStackWh + lostWh, intoStackWh, lostWh };
}
