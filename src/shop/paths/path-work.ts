import type { MeasurementTable } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import { type EyeAnswers, type EyeModelData, eyeModel } from '#craft/eyes';
import {
  builtinProfile,
  createTransform,
  deviceToLab,
  lookUpReach,
  parseProfile,
  reachTable,
  type UtcMoment,
} from '#craft/icc';
import {
  adaptInkModel,
  chooseFollowUp,
  type ExpectedError,
  expectedError,
  type FollowUpChoice,
  fitInkModel,
  type GamutFacts,
  gamutFacts,
  type InkModel,
  type InkModelData,
  type InkPrediction,
  type InverseAnswer,
  inkProfile,
  joinSheets,
  makeInkModel,
  makeInverse,
  type SheetShift,
  unexplainedShare,
} from '#craft/inkmodel';
import {
  type AnsweredColour,
  answerColours,
  type KnownPath,
  lookAtPath,
  type PathPicture,
  type WantedColour,
} from '#craft/pathlook';
import { choosePalette } from '#craft/testsheet';
import { type CheckColour, chooseCheckColours } from '#craft/verification';
import { modelOf, readyPath } from './known-paths.js';
import type { PathSource } from './path-source.js';

/** What is worked out for colour paths in a thread of its own. Plain data in, plain data out. */

export interface LearnTask {
  /** One for each reading; the one with the most patches sets what the others are brought to. */
  readonly tables: readonly MeasurementTable[];
  /** The model of another paper or blank to start from; null: from nothing. */
  readonly base: InkModelData | null;
}

export interface Learnt {
  readonly data: InkModelData;
  readonly noiseSdLab: Triple;
  readonly unexplained: number;
  /** All readings together, as the model was learnt from them. */
  readonly table: MeasurementTable;
  readonly shifts: readonly SheetShift[];
}

/** Errors: chart.unusable. */
export function learn({ tables, base }: LearnTask): Learnt {
  const baseModel = base === null ? null : makeInkModel(base);
  const train = (table: MeasurementTable): InkModel =>
    baseModel === null ? fitInkModel(table) : adaptInkModel(baseModel, table);
  const { table, shifts } = joinSheets(tables, train);
  const model = train(table);
  const unexplained = unexplainedShare(model, table.lab ?? []);
  return { data: model.data, noiseSdLab: model.noiseSd, unexplained, table, shifts };
}

export interface ProfileTask {
  readonly source: PathSource;
  readonly version: 2 | 4;
  readonly description: string;
  readonly createdAt: UtcMoment;
}

export interface MadeProfile {
  readonly icc: Uint8Array;
  readonly gamut: GamutFacts;
  readonly expected: ExpectedError;
}

export function profile({ source, ...spec }: ProfileTask): MadeProfile {
  const { model, inverse } = readyPath(source);
  const copyright = 'Made from measurements of its owner; no rights are claimed in the tables';
  return {
    icc: inkProfile(model, { ...spec, copyright, inverse }),
    gamut: gamutFacts(inverse),
    expected: expectedError(model),
  };
}

export function predict({ data, rgb }: { data: InkModelData; rgb: readonly Triple[] }): {
  predictions: InkPrediction[];
  noiseSdLab: Triple;
} {
  const model = makeInkModel(data);
  return { predictions: model.predict(rgb), noiseSdLab: model.noiseSd };
}

export function invert({ data, lab }: { data: InkModelData; lab: readonly Triple[] }): InverseAnswer[] {
  return makeInverse(makeInkModel(data)).invert(lab);
}

/** A path and what its readers add to its doubt. */
export interface AboutPath {
  readonly source: PathSource;
  readonly readingErrorDeltaE00: number;
}

const known = ({ source, readingErrorDeltaE00 }: AboutPath): KnownPath => ({
  ...readyPath(source),
  readingErrorDeltaE00,
});

export function look(about: AboutPath): PathPicture {
  return lookAtPath(known(about));
}

export function answer({
  wanted,
  ...about
}: AboutPath & { wanted: readonly WantedColour[] }): AnsweredColour[] {
  return answerColours(known(about), wanted);
}

export function followUp({ data, ...choice }: FollowUpChoice & { data: InkModelData }): Triple[] {
  return chooseFollowUp(makeInkModel(data), choice);
}

/** Colours for a check sheet, by what the path reaches. */
export function checkColours({
  source,
  ...choice
}: {
  source: PathSource;
  count: number;
  seed: number;
}): CheckColour[] {
  const { inverse } = readyPath(source);
  return chooseCheckColours({ ...choice, reaches: (lab) => inverse.inGamutRelative(lab) });
}

/** Which of the media-relative colours are reached. */
export function reached({ source, lab }: { source: PathSource; lab: readonly Triple[] }): boolean[] {
  const { inverse } = readyPath(source);
  return lab.map((one) => inverse.inGamutRelative(one));
}

/** What comes out for device values, and the doubt, whatever the path was made from. */
export function foresee({ source, rgb }: { source: PathSource; rgb: readonly Triple[] }): InkPrediction[] {
  return readyPath(source).model.predict(rgb);
}

export interface CarriedLab {
  readonly wantedLab: Triple;
  readonly comesOutLab: Triple;
  readonly device: Triple;
}

/** sRGB colours through the path's own tables: what is wanted (its black moved) and what comes out, beside the white. */
export function carry({ icc, srgb }: { icc: Uint8Array; srgb: readonly Triple[] }): CarriedLab[] {
  const destination = parseProfile(icc);
  const options = {
    source: builtinProfile('srgb'),
    destination,
    intent: 'relative',
    blackPointCompensation: true,
  } as const;
  const { convert } = createTransform(options);
  const table = reachTable(options);
  const toLab = deviceToLab(destination);
  return srgb.map((rgb) => {
    const device = [...convert(rgb)] as unknown as Triple;
    return { wantedLab: lookUpReach(table, ...rgb).wantedLab, comesOutLab: toLab(device), device };
  });
}

/** A palette over all that the path reaches. */
export function palette({
  source,
  count,
}: {
  source: PathSource;
  count?: number | undefined;
}): ReturnType<typeof choosePalette> {
  const { inverse } = readyPath(source);
  return choosePalette((lab) => inverse.inGamutRelative(lab), count);
}

/** The colour model of a grey sheet's picks over what was printed with. */
export function byEye({ answers, base }: { answers: EyeAnswers; base: PathSource | null }): {
  data: EyeModelData;
  remarks: string[];
} {
  const { data, remarks } = eyeModel(answers, base === null ? undefined : modelOf(base));
  return { data, remarks };
}
