import type { MeasurementTable } from './types.js';

const heads = [
  'INSTRUMENTATION',
  'INSTRUMENT',
  'MEASUREMENT_SOURCE',
  'MEASUREMENT_GEOMETRY',
  'ORIGINATOR',
  'WEIGHTING_FUNCTION',
];

/**
 * Whether a table without a word on its origin looks like an instrument's: spectra, or a CGATS head that says who made it
 * or how the colours were weighted. A bare table of numbers could have come from anywhere.
 */
export function looksLikeInstrument({
  keywords,
  spectra,
}: Pick<MeasurementTable, 'keywords' | 'spectra'>): boolean {
  return spectra !== null || heads.some((name) => keywords.has(name));
}
