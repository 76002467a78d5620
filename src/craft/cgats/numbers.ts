import { broken, shown } from './broken.js';

/** One value of a table. A comma counts as the decimal point where it is the only mark in the number. */
export function numberOf(text: string, row: number, field: string): number {
  const plain = text.trim();
  const value = /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(plain)
    ? Number(plain)
    : /^[-+]?\d*,\d+(e[-+]?\d+)?$/i.test(plain)
      ? Number(plain.replace(',', '.'))
      : Number.NaN;
  if (!Number.isFinite(value)) {
    broken(
      plain === ''
        ? `Row ${row + 1} has no value in column ${shown(field)}.`
        : `Row ${row + 1} has “${shown(plain)}” in column ${shown(field)}, where a number should be.`,
      'Mend this row or leave it out.',
      `row ${row + 1}`,
    );
  }
  return value;
}
