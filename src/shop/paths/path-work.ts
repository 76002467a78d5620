import type { MeasurementTable } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import type { UtcMoment } from '#craft/icc';
import {
  adaptInkModel,
  type ExpectedError,
  expectedError,
  fitInkModel,
  type GamutFacts,
  gamutFacts,
  type InkModelData,
  type InkPrediction,
  type InverseAnswer,
  inkProfile,
  makeInkModel,
  makeInverse,
  unexplainedShare,
} from '#craft/inkmodel';

/** What is worked out for colour paths in a thread of its own. Plain data in, plain data out. */

export interface LearnTask {
  readonly table: MeasurementTable;
  /** The model of another paper or blank to start from; null: from nothing. */
  readonly base: InkModelData | null;
}

/** Errors: chart.unusable. */
export function learn({ table, base }: LearnTask): {
  data: InkModelData;
  noiseSdLab: Triple;
  unexplained: number;
} {
  const model = base === null ? fitInkModel(table) : adaptInkModel(makeInkModel(base), table);
  const unexplained = unexplainedShare(model, table.lab ?? []);
  return { data: model.data, noiseSdLab: model.noiseSd, unexplained };
}

export interface ProfileTask {
  readonly data: InkModelData;
  readonly version: 2 | 4;
  readonly description: string;
  readonly createdAt: UtcMoment;
}

export interface MadeProfile {
  readonly icc: Uint8Array;
  readonly gamut: GamutFacts;
  readonly expected: ExpectedError;
}

export function profile({ data, ...spec }: ProfileTask): MadeProfile {
  const model = makeInkModel(data);
  const inverse = makeInverse(model);
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
