import type { ColourPath, PathCheck, PathStanding, Reading } from '#contract';
import { labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import { isProblem } from '#craft/problem';
import { judgeRouteStrip, type PrintRoute, routeChanges, type StripJudgement } from '#craft/verification';
import type { ColourRoundParts } from './parts.js';

export interface StandingQuestion {
  /** Left out: the setup and the blank that the path was measured with, as they are now. */
  readonly setupId?: string | undefined;
  readonly blankId?: string | undefined;
}

type Reason = PathStanding['reasons'][number];
type Weight = 'note' | 'look' | 'stale';

/** After so long ink, paper and coats are seldom the same batch (common practice); only a note. */
const oldDays = 180;

/** Whether a path still belongs to the way things are printed and pressed. Errors: record.missing. */
export async function pathStanding(
  parts: ColourRoundParts,
  path: ColourPath,
  question: StandingQuestion,
): Promise<PathStanding> {
  const weighed: { weight: Weight; reason: Reason }[] = [];
  const { belongsTo } = path;
  if (belongsTo !== undefined) {
    for (const { what, weight, sentence } of routeChanges(belongsTo, await routeNow(parts, path, question))) {
      weighed.push({ weight, reason: { what, sentence } });
    }
  }
  const strip = await lastStrip(parts, path, question);
  if (strip?.judgement.isChanged) weighed.push({ weight: 'stale', reason: stripReason(strip) });
  const [lastCheck] = await parts.records.pathChecks.list(path.id);
  if (lastCheck !== undefined && lastCheck.verdict !== 'good') {
    weighed.push({ weight: lastCheck.verdict, reason: checkReason(lastCheck) });
  }
  const days = (parts.now().getTime() - Date.parse(path.createdAt)) / 86_400_000;
  if (days > oldDays) {
    weighed.push({
      weight: 'note',
      reason: {
        what: 'age',
        sentence: `The path is ${Math.round(days / 30.44)} months old: batches of ink, paper and coats change. A check sheet tells.`,
      },
    });
  }
  const has = (weight: Weight): boolean => weighed.some((one) => one.weight === weight);
  const known = belongsTo !== undefined || lastCheck !== undefined || strip !== null;
  return {
    pathId: path.id,
    standing: has('stale') ? 'stale' : has('look') ? 'look' : known ? 'fits' : 'unknown',
    reasons: weighed.map((one) => one.reason),
    lastCheck:
      lastCheck === undefined
        ? null
        : { id: lastCheck.id, createdAt: lastCheck.createdAt, meanDeltaE00: lastCheck.overall.mean },
  };
}

/** The setup and blank asked about; those of the path as they are now; a record that is gone tells nothing. */
async function routeNow(
  { setups, blanks }: ColourRoundParts,
  { belongsTo }: ColourPath,
  { setupId, blankId }: StandingQuestion,
): Promise<Partial<PrintRoute>> {
  const setup =
    setupId === undefined
      ? belongsTo && (await whereThere(setups.get(belongsTo.setup.id)))
      : await setups.get(setupId);
  const blank =
    blankId === undefined
      ? belongsTo && (await whereThere(blanks.get(belongsTo.blank.id)))
      : await blanks.get(blankId);
  return { ...(setup === undefined ? {} : { setup }), ...(blank === undefined ? {} : { blank }) };
}

function whereThere<T>(record: Promise<T>): Promise<T | undefined> {
  return record.catch((error: unknown) => {
    if (isProblem(error) && error.code === 'record.missing') return undefined;
    throw error;
  });
}

interface LastStrip {
  readonly reading: Reading;
  readonly judgement: StripJudgement;
}

/** The route strip of the newest later reading of a piece by the same setup and blank, against the path's own model. */
async function lastStrip(
  parts: ColourRoundParts,
  path: ColourPath,
  question: StandingQuestion,
): Promise<LastStrip | null> {
  const { measurement, belongsTo } = path;
  const setupId = question.setupId ?? belongsTo?.setup.id;
  const blankId = question.blankId ?? belongsTo?.blank.id;
  if (measurement === undefined || measurement.grade === 'E' || setupId === undefined) return null;
  const later = (await parts.readings.list())
    .filter((one) => one.createdAt > path.createdAt && one.subject === 'piece' && one.routeStrip.length > 0)
    .filter((one) => !measurement.readingIds.includes(one.id))
    .sort((a, b) => (a.createdAt < b.createdAt ? 1 : -1));
  for (const reading of later) {
    const snapshot = await whereThere(parts.testSheets.snapshot(reading.sheetId));
    if (snapshot?.setup.id !== setupId || (blankId !== undefined && snapshot.blank.id !== blankId)) continue;
    const judgement = await judgeStrip(parts, path, reading);
    if (judgement !== null) return { reading, judgement };
  }
  return null;
}

async function judgeStrip(
  { paths }: ColourRoundParts,
  path: ColourPath,
  reading: Reading,
): Promise<StripJudgement | null> {
  const measurement = path.measurement!;
  const said = await paths.foresee(
    path,
    reading.routeStrip.map((patch) => patch.deviceRgb.map((v) => v / 255) as Triple3),
  );
  const own = besideWhite(measurement.gamut.whiteLab);
  const theirs = besideWhite(reading.groundLab);
  const readingErrors = [
    measurement.readingError?.meanDeltaE00 ?? 0,
    reading.grade === 'A' ? 0 : reading.expectedError.meanDeltaE00,
  ];
  return judgeRouteStrip(
    reading.routeStrip.map((patch, i) => ({
      name: patch.name,
      expectedLab: own(said[i]!.lab),
      seenLab: theirs(patch.lab),
      doubtDeltaE00: said[i]!.expectedDeltaE00,
    })),
    readingErrors,
  );
}

function besideWhite(whiteLab: Triple): (lab: Triple) => Triple3 {
  const white = xyzFromLab(whiteLab);
  return (lab) => labFromXyz(xyzFromLab(lab), white);
}

function stripReason({ reading, judgement }: LastStrip): Reason {
  const { meanDeltaE00, allowedDeltaE00, worst } = judgement;
  return {
    what: 'route-strip',
    sentence: `The raw patches at the edge of the sheet read on ${reading.createdAt.slice(0, 10)} come out ${meanDeltaE00.toFixed(1)} ΔE00 from what the path says (up to ${allowedDeltaE00.toFixed(1)} is in order; worst: ${worst.name}, ${worst.deltaE00.toFixed(1)}): printer, ink, paper or press have changed.`,
  };
}

function checkReason(check: PathCheck): Reason {
  return {
    what: 'check',
    sentence: `The last check, on ${check.createdAt.slice(0, 10)}, found colours ${check.overall.mean.toFixed(1)} ΔE00 off on average; the path expected ${check.expectedMean.toFixed(1)}.`,
  };
}
