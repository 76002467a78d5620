import { createHash } from 'node:crypto';
import type { ColourPath, PathCheck, Reading, ReadingPatch } from '#contract';
import { formatHex, labFromXyz, srgb8FromLab, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import { Problem } from '#craft/problem';
import { type CheckedPatch, checkedPatch, judgeCheck, summariseCheck } from '#craft/verification';
import type { ColourRoundParts, WantedPatch } from './parts.js';

/** One patch as it was asked for, and the colours that its readings gave. */
interface Paired extends CheckedPatch {
  readonly deviceRgb: Triple;
}

/**
 * Pairs a reading of a check sheet with what each patch should be, both beside their own white, and judges.
 * Errors: record.missing; chart.unusable when the reading is not of a check sheet of this path or nothing is left of it.
 */
export async function checkPath(
  parts: ColourRoundParts,
  path: ColourPath,
  reading: Reading,
): Promise<PathCheck> {
  const { testSheets, readings, records, now } = parts;
  const sheet = await testSheets.get(reading.sheetId);
  if (sheet.order.kind !== 'check') {
    throw new Problem('chart.unusable', `The sheet ${sheet.id} is not a check sheet.`, {
      remedy: 'Print a check sheet through this path, press it, read it, and check with that reading.',
    });
  }
  if (sheet.order.pathId !== path.id) {
    throw new Problem(
      'chart.unusable',
      `The sheet ${sheet.id} was printed through another path than “${path.name}”.`,
      {
        remedy: 'Check the path that the sheet was made for, or print a check sheet through this one.',
      },
    );
  }
  if (reading.subject === 'paper') {
    throw new Problem(
      'chart.unusable',
      `${reading.fileName} shows the printed paper before it was pressed.`,
      {
        remedy: 'Press the check sheet and read the piece.',
      },
    );
  }
  const order = await testSheets.orderOf(sheet.id);
  const wanted = await testSheets.wantedOf(sheet.id);
  if (order === null || wanted === null) throw gone(sheet.id);
  const patches = await readings.patches(reading.id);
  const paired = pair(wanted, order.patches, patches, whiteOf(path, reading, patches));
  const summary = summariseCheck(paired);
  if (summary === null) {
    throw new Problem('chart.unusable', 'No patch of the check sheet could be read soundly.', {
      remedy: 'Look at the overlay picture of the reading, clean glass and piece, and scan again.',
    });
  }
  const expectedMean = await expectedOf(parts, path, paired);
  const readingMean = reading.grade === 'A' ? 0 : reading.expectedError.meanDeltaE00;
  const earlier = (await records.pathChecks.list(path.id))
    .filter((check) => check.readingId !== reading.id && check.createdAt < now().toISOString())
    .map((check) => ({ mean: check.overall.mean, day: check.createdAt.slice(0, 10) }));
  const judgement = judgeCheck({ summary, expectedMean, readingMean, earlier });
  return {
    id: checkId(path.id, reading.id),
    pathId: path.id,
    sheetId: sheet.id,
    readingId: reading.id,
    grade: reading.grade,
    overall: summary.overall,
    neutrals: summary.neutrals,
    limited: summary.limited,
    expectedMean,
    sentences: judgement.sentences,
    verdict: judgement.verdict,
    patches: paired.map((patch) => ({
      wantedLab: [...patch.wantedLab],
      seenLab: [...patch.seenLab],
      wantedHex: hexOf(patch.wantedLab),
      seenHex: hexOf(patch.seenLab),
      deltaE00: patch.deltaE00,
      kind: patch.kind,
    })),
    createdAt: now().toISOString(),
  };
}

/**
 * The white that colours are seen beside. A picture shows the bare ground; an instrument is put on patches only, and the
 * lightest of a check sheet is tinted: then the path's own white stands in, unless bare ground was measured too.
 */
function whiteOf(path: ColourPath, reading: Reading, patches: readonly ReadingPatch[]): Triple {
  if (reading.from !== 'instrument') return reading.groundLab;
  const bare = patches.find(({ deviceRgb }) => deviceRgb.every((byte) => byte === 255));
  return bare?.lab ?? path.measurement?.gamut.whiteLab ?? reading.groundLab;
}

/** The same reading checked again is the same check. */
const checkId = (pathId: string, readingId: string): string =>
  createHash('sha256').update(`${pathId}:${readingId}`).digest('hex').slice(0, 16);

/** By device colour: patches that repeat one (controls too) are read together. */
function pair(
  wanted: readonly WantedPatch[],
  asked: readonly { readonly rgb: Triple }[],
  patches: readonly ReadingPatch[],
  groundLab: Triple,
): Paired[] {
  const white = xyzFromLab(groundLab);
  const seen = new Map<string, Triple[]>();
  for (const patch of patches) {
    if (!patch.sound) continue;
    const key = patch.deviceRgb.join();
    seen.set(key, [...(seen.get(key) ?? []), patch.lab]);
  }
  return wanted.flatMap(({ chosen, relativeLab, kind }): Paired[] => {
    const rgb = asked[chosen]?.rgb;
    if (rgb === undefined) return [];
    const deviceRgb = rgb.map((v) => Math.round(255 * v)) as Triple3;
    const labs = seen.get(deviceRgb.join());
    if (labs === undefined) return [];
    const mean = [0, 1, 2].map((j) => labs.reduce((sum, lab) => sum + lab[j]!, 0) / labs.length) as Triple3;
    return [{ ...checkedPatch(relativeLab, labFromXyz(xyzFromLab(mean), white), kind), deviceRgb }];
  });
}

/** What the path itself expects of the colours within reach: the model's doubt there and its readers' error. */
async function expectedOf(
  { paths }: ColourRoundParts,
  path: ColourPath,
  paired: readonly Paired[],
): Promise<number> {
  const { measurement } = path;
  if (measurement === undefined) return 0;
  const within = paired.filter((patch) => patch.kind !== 'limited');
  const said = await paths.foresee(
    path,
    within.map((patch) => patch.deviceRgb.map((v) => v / 255) as Triple3),
  );
  const reading = measurement.readingError?.meanDeltaE00 ?? 0;
  return (
    said.reduce((sum, one) => sum + Math.hypot(one.expectedDeltaE00, reading), 0) / Math.max(1, said.length)
  );
}

const hexOf = (lab: Triple): string => formatHex(srgb8FromLab(lab));

const gone = (sheetId: string): Problem =>
  new Problem('file.missing', `What the check sheet ${sheetId} asked for is no longer known.`, {
    remedy: 'Print a new check sheet.',
  });
