import type { ColourPath, LearnRequest, PrintSetup, Reading, TestSheetSnapshot } from '#contract';
import { Problem } from '#craft/problem';
import { routeChanges } from '#craft/verification';
import type { MeasuredSource, PathWorkOptions } from '#shop/paths';
import type { ColourRoundParts } from './parts.js';

/** Everything a request to learn names, found and looked over; nothing has been worked out. */
export interface PreparedLearning {
  readonly name: string;
  readonly sources: readonly MeasuredSource[];
  readonly belongsTo: ColourPath['belongsTo'];
  readonly base: ColourPath | null;
  readonly setup: PrintSetup | null;
}

/**
 * Errors: record.missing; chart.unusable for readings that cannot make a path (unpressed paper, grey sheets, sheets of
 * different printers or blanks).
 */
export async function prepareLearning(
  parts: ColourRoundParts,
  request: LearnRequest,
): Promise<PreparedLearning> {
  const { readings, testSheets, paths, setups } = parts;
  const found = await Promise.all([...new Set(request.readingIds)].map((id) => readings.get(id)));
  for (const reading of found) assertUsable(reading, request.onPaper ?? false);
  const snapshots = await Promise.all(found.map((reading) => snapshotOf(parts, reading)));
  assertAlike(found, snapshots);
  const largest = found.reduce((best, one, i) => (one.soundCount > found[best]!.soundCount ? i : best), 0);
  const snapshot = snapshots[largest] ?? null;
  const base = request.basePathId === undefined ? null : await paths.get(request.basePathId);
  const setup = request.setupId === undefined ? null : await setups.get(request.setupId);
  const sources = await Promise.all(
    found.map(
      async (reading): Promise<MeasuredSource> => ({
        table: await readings.tableOf(reading.id),
        grade: reading.grade,
        // An instrument's own error is left out, as it is for files that come straight from one.
        error: reading.grade === 'A' ? null : reading.expectedError,
        readingId: reading.id,
      }),
    ),
  );
  const name = request.name.trim() || (await ownName(testSheets, found[largest]!));
  return {
    name,
    sources,
    belongsTo: snapshot === null ? undefined : { setup: snapshot.setup, blank: snapshot.blank },
    base,
    setup,
  };
}

/** Errors: chart.unusable, job.cancelled, disk.full; profile.unsupported when the base was not measured. */
export async function learnPrepared(
  { paths, setups }: ColourRoundParts,
  prepared: PreparedLearning,
  options: PathWorkOptions,
): Promise<ColourPath> {
  const { base, sources, name, belongsTo, setup } = prepared;
  const { path } = await paths.learn(sources, {
    ...options,
    name,
    belongsTo,
    base: base === null ? undefined : { name: base.name, data: await paths.model(base) },
  });
  if (setup !== null) {
    // As it is now: a person may have changed it while the path was being learnt.
    const current = await setups.get(setup.id);
    await setups.save(current.id, { ...current, colourPathId: path.id });
  }
  return path;
}

function assertUsable(reading: Reading, onPaper: boolean): void {
  if (reading.sheetKind === 'grey' || reading.sheetKind === 'palette') {
    throw new Problem(
      'chart.unusable',
      `The reading of ${reading.fileName} is of a ${reading.sheetKind} sheet.`,
      {
        remedy: 'Choose readings of colour test sheets, follow-up sheets or check sheets.',
      },
    );
  }
  if (reading.subject === 'paper' && !onPaper) {
    throw new Problem(
      'chart.unusable',
      `${reading.fileName} shows the printed paper before it was pressed.`,
      {
        remedy:
          'The colours come in the press: press the sheet, scan the piece, and learn from that reading. If you want a path for the paper itself, say so.',
      },
    );
  }
}

/** Null where the sheet's record is gone. */
async function snapshotOf(
  { testSheets }: ColourRoundParts,
  reading: Reading,
): Promise<TestSheetSnapshot | null> {
  return testSheets.snapshot(reading.sheetId).catch((error: unknown) => {
    if (error instanceof Problem && error.code === 'record.missing') return null;
    throw error;
  });
}

function assertAlike(readings: readonly Reading[], snapshots: readonly (TestSheetSnapshot | null)[]): void {
  const known = snapshots.flatMap((snapshot, i) =>
    snapshot === null ? [] : [{ snapshot, reading: readings[i]! }],
  );
  const [first, ...others] = known;
  for (const other of others) {
    const change = routeChanges(first!.snapshot, other.snapshot).find((one) => one.weight === 'stale');
    if (change === undefined) continue;
    throw new Problem(
      'chart.unusable',
      `${first!.reading.fileName} and ${other.reading.fileName} were not made alike. ${change.sentence}`,
      { remedy: 'Learn a path from each of them, or adapt the one to the other.' },
    );
  }
}

async function ownName(testSheets: ColourRoundParts['testSheets'], reading: Reading): Promise<string> {
  const sheet = await testSheets.get(reading.sheetId).catch(() => null);
  return sheet === null ? 'Measured colour path' : `${sheet.setupName} on ${sheet.blankName}`;
}
