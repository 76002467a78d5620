import type { HeatRun } from './types.js';

/**
 * The same run for several pieces, one after the other, on a press that has no time to forget: phases of the second are
 * named `press 2` and so on. Phases after a piece has left the press (`cool`) are left out.
 */
export function piecesInARow(run: HeatRun, count: number, pastPhases: readonly string[] = ['cool']): HeatRun {
  const atPress = run.phases.filter((phase) => !pastPhases.includes(phase.name));
  const phases = Array.from({ length: count }, (_, piece) =>
    atPress.map((phase, i) => ({
      ...phase,
      name: piece === 0 ? phase.name : `${phase.name} ${piece + 1}`,
      ...(piece > 0 && i === 0 ? { freshPiece: true } : {}),
    })),
  );
  return { ...run, phases: phases.flat() };
}
