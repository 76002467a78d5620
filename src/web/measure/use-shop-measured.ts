import { useColourPaths, useReadings, useStandings, useTestSheets } from '../api/index.js';
import { type RoundState, roundState } from './round-state.js';
import { saidOf } from './said-of-sheet.js';

/** All that the Measure place shows: paths with their standing, rounds under way and those done. */
export function useShopMeasured() {
  const sheets = useTestSheets();
  const readings = useReadings(null);
  const all = useColourPaths();
  const paths = (all.data ?? []).filter((path) => path.origin !== 'imported');
  const asked = useStandings(paths.map((path) => path.id));
  const standings = asked.flatMap((query) => (query.data ? [query.data] : []));

  const rounds: RoundState[] = (sheets.data ?? [])
    .filter((sheet) => sheet.kind !== 'ladder' && sheet.kind !== 'evenness')
    .sort((one, two) => two.createdAt.localeCompare(one.createdAt))
    .map((sheet) => {
      const said = saidOf(sheet.id);
      return roundState(sheet, {
        readings: readings.data ?? [],
        paths: all.data ?? [],
        standings,
        // A check sheet that has been read is judged on its page at once.
        judged: (readings.data ?? []).some((one) => one.sheetId === sheet.id && one.subject === 'piece'),
        said,
      });
    });
  return {
    known:
      sheets.data !== undefined &&
      all.data !== undefined &&
      readings.data !== undefined &&
      asked.every((query) => !query.isPending),
    error: sheets.error ?? readings.error ?? all.error,
    paths,
    standings,
    toLookAt: standings.filter((one) => one.standing === 'look' || one.standing === 'stale').length,
    unchecked: standings.filter((one) => one.lastCheck === null).length,
    underWay: rounds.filter((round) => round.next !== null && round.next !== 'checked'),
    earlier: rounds.filter((round) => round.next === null || round.next === 'checked'),
  };
}
