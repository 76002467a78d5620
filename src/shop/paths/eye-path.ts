import type { ColourPath } from '#contract';
import { writeCgats } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import type { EyeAnswers } from '#craft/eyes';
import { gradeErrors, joinErrors, poolErrors } from '#craft/verification';
import type { ContentFiles } from '#shop/files';
import type { KeptPath } from './keep-learnt.js';
import { utcMoment } from './learn-path.js';
import { type EyePathFile, keptBaseOf, type PathSource, sourceOf } from './path-source.js';
import { inPathThread } from './path-threads.js';

/** What a person picked on a grey sheet, and what it was printed through. */
export interface EyeJudgement {
  readonly name: string;
  readonly answers: EyeAnswers;
  /** The path the grey sheet was printed through; null: the plain driver. */
  readonly base: ColourPath | null;
  readonly belongsTo: ColourPath['belongsTo'];
}

/** The path of a grey sheet's picks, kept nowhere yet. Grade E. Errors: file.missing, request.invalid. */
export async function eyePathOf(made: EyeJudgement, files: ContentFiles, now: Date): Promise<KeptPath> {
  const { answers, base } = made;
  const baseSource = base === null ? null : await sourceOf(base, files);
  const { data, remarks } = await inPathThread('byEye', { answers, base: baseSource });
  const source: PathSource = { kind: 'eye', key: '', data, base: baseSource };
  const version = 2;
  const profile = await inPathThread('profile', {
    source,
    version,
    description: made.name || 'Judged by eye',
    createdAt: utcMoment(now),
  });
  const file: EyePathFile = {
    format: 'dyewright-eye-path',
    version: 1,
    eye: data,
    base: base === null ? null : keptBaseOf(base),
  };
  const picks = pickedColours(answers);
  const said = await inPathThread('foresee', { source, rgb: picks.map((pick) => pick.rgb) });
  const table = {
    device: { space: 'RGB' as const, rows: picks.map((pick) => pick.rgb) },
    lab: said.map((one) => one.lab),
    xyz: null,
    spectra: null,
    sdLab: said.map((one) => one.sdLab),
    sampleIds: picks.map((pick) => pick.name),
    keywords: new Map<string, string>(),
    remarks: [],
  };
  // The model's own doubt is what eyes leave open; it never counts for less than the rule of thumb.
  const doubt = { meanDeltaE00: profile.expected.mean, p95DeltaE00: profile.expected.p95 };
  const thumb = poolErrors([{ patches: 1, error: gradeErrors.E }])!;
  const expectedError = {
    ...joinErrors(doubt, null),
    meanDeltaE00: Math.max(doubt.meanDeltaE00, thumb.meanDeltaE00),
    p95DeltaE00: Math.max(doubt.p95DeltaE00, thumb.p95DeltaE00),
    restsOn: 'rule-of-thumb' as const,
  };
  return {
    origin: 'by-eye',
    model: `${JSON.stringify(file)}\n`,
    measurements: writeCgats(table, {
      originator: 'Dyewright',
      keywords: { DYEWRIGHT_GRADE: 'E', DYEWRIGHT_NOTE: 'Colours as the eye model says, not measured' },
    }),
    icc: profile.icc,
    measurement: {
      grade: 'E',
      patches: picks.length,
      repeats: 0,
      outliers: [],
      noiseSdLab: [...meanSd(said.map((one) => one.sdLab))],
      expectedError,
      gamut: {
        whiteLab: [...profile.gamut.whiteLab],
        blackLab: [...profile.gamut.blackLab],
        volumeLab: profile.gamut.volumeLab,
        srgbShare: profile.gamut.srgbShare,
      },
      adaptedFrom: base?.name ?? null,
      remarks,
      readingIds: [],
    },
    belongsTo: made.belongsTo,
  };
}

function pickedColours(answers: EyeAnswers): { name: string; rgb: Triple }[] {
  const unit = (rgb: Triple): Triple => [rgb[0] / 255, rgb[1] / 255, rgb[2] / 255];
  return [
    ...answers.rows.map((row, i) => ({ name: `neutral ${i + 1}`, rgb: unit(row.chosen.deviceRgb) })),
    { name: 'from black', rgb: unit(answers.fromBlack) },
    { name: 'from white', rgb: unit(answers.fromWhite) },
    { name: 'like the card', rgb: unit(answers.likeCard) },
  ];
}

function meanSd(rows: readonly Triple[]): [number, number, number] {
  const mean = (j: 0 | 1 | 2): number =>
    rows.reduce((sum, row) => sum + row[j], 0) / Math.max(1, rows.length);
  return [mean(0), mean(1), mean(2)];
}
