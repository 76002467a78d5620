import { Problem } from '#craft/problem';
import { mostPatches } from './patches.js';
import type { InkModelData } from './types.js';

/** Models adapted from models adapted from models…: no more of them than make sense. */
export const mostBases = 4;

/**
 * Looks over what was read from JSON before a model is made of it.
 * @throws Problem `chart.unusable` for anything that is not whole
 */
export function readInkModelData(value: unknown): InkModelData {
  if (!isData(value, mostBases)) {
    throw new Problem('chart.unusable', 'The stored ink model is damaged or of another kind.', {
      remedy: 'Make the colour path again from its measurements.',
    });
  }
  return value;
}

function isData(value: unknown, bases: number): value is InkModelData {
  if (!isRecord(value) || value.format !== 'dyewright-ink-model' || value.version !== 1) return false;
  const { rgb, lab, noiseMultiple, channels, widening, roughnessSd, outliers, neutralLift, base } = value;
  if (!isList(rgb) || rgb.length < 6 || rgb.length > mostPatches) return false;
  const sizes =
    isList(lab) && lab.length === rgb.length && isNumbers(noiseMultiple, rgb.length, (v) => v > 0);
  const values =
    rgb.every((row) => isNumbers(row, 3, (v) => v >= 0 && v <= 1)) &&
    isList(lab) &&
    lab.every((row) => isNumbers(row, 3, (v) => Math.abs(v) < 500));
  const learnt =
    isList(channels) &&
    channels.length === 3 &&
    channels.every(isChannel) &&
    isNumbers(widening, 3, (v) => v > 0) &&
    isNumbers(roughnessSd, 3, (v) => v >= 0);
  const rest =
    isList(outliers) &&
    isList(neutralLift) &&
    neutralLift.length !== 1 &&
    isNumbers(neutralLift, neutralLift.length, (v) => Math.abs(v) < 100);
  return sizes && values && learnt && rest && (base === null || (bases > 0 && isData(base, bases - 1)));
}

function isChannel(value: unknown): boolean {
  if (!isRecord(value) || !isRecord(value.kernel)) return false;
  const { reach, variance, trendSd, guideTrendSd } = value.kernel;
  return (
    isNumbers(reach, 6, (v) => v > 0) &&
    isNumbers(variance, 4, (v) => v >= 0) &&
    isNumbers([trendSd, guideTrendSd], 2, (v) => v >= 0) &&
    isNumbers([value.noiseSd], 1, (v) => v > 0)
  );
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isList = (value: unknown): value is unknown[] => Array.isArray(value);
const isNumbers = (value: unknown, length: number, fits: (v: number) => boolean): boolean =>
  isList(value) && value.length === length && value.every((v) => Number.isFinite(v) && fits(v as number));
