import { broken } from './broken.js';
import { type TextTable, textLimits } from './cgats-text.js';

const separators = [';', '\t', ','] as const;
type Separator = (typeof separators)[number];

/**
 * Takes a table of comma-, semicolon- or tab-separated values apart (RFC 4180 quoting). The first row that is not a
 * comment names the columns. Decimal commas are left to the reader of numbers.
 * @throws Problem `measurements.broken`
 */
export function parseCsv(text: string): TextTable {
  const plain = text.replace(/^\uFEFF/, '');
  const records = split(plain, separatorOf(plain));
  const [fields, ...rows] = records;
  if (fields === undefined || fields.length < 3) {
    broken(
      'The file is neither CGATS nor a table with named columns.',
      'Export the measurements as CGATS text, or as CSV with a first row that names the columns.',
    );
  }
  if (fields.every((cell) => cell === '' || /^[-+]?[\d.,]+(e[-+]?\d+)?$/i.test(cell))) {
    broken(
      'The first row holds numbers where the names of the columns should be.',
      'Add a first row such as RGB_R,RGB_G,RGB_B,LAB_L,LAB_A,LAB_B.',
      'line 1',
    );
  }
  rows.forEach((row, i) => {
    while (row.length > fields.length && row.at(-1) === '') row.pop();
    if (row.length !== fields.length) {
      broken(
        `Row ${i + 1} has ${row.length} values where the first row names ${fields.length} columns.`,
        'Mend this row, or export the table again.',
        `row ${i + 1}`,
      );
    }
  });
  return { keywords: new Map(), fields, rows };
}

/** The separator that the first rows agree on and that makes most columns. */
function separatorOf(text: string): Separator {
  const head = text.slice(0, 20_000).split(/\r\n|\r|\n/);
  const lines = head.filter((line) => line.trim() !== '' && !line.startsWith('#')).slice(0, 5);
  const score = (separator: Separator): number =>
    Math.min(...lines.map((line) => line.replace(/"[^"]*"/g, '').split(separator).length));
  return separators.reduce((best, one) => (score(one) > score(best) ? one : best));
}

function split(text: string, separator: Separator): string[][] {
  const records: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let quoted = false;
  let wasQuoted = false;
  const endCell = (): void => {
    row.push(wasQuoted ? cell : cell.trim());
    cell = '';
    wasQuoted = false;
    if (row.length > textLimits.fields) {
      broken('The file has more columns than can be read.', 'Export a smaller set of measurements.');
    }
  };
  const endRow = (): void => {
    endCell();
    if (row.some((one) => one !== '') && !row[0]!.startsWith('#')) records.push(row);
    row = [];
    if (records.length > textLimits.rows) {
      broken('The file has more rows than can be read.', 'Export a smaller set of measurements.');
    }
  };
  for (let at = 0; at < text.length; at += 1) {
    const c = text[at]!;
    if (quoted) {
      if (c !== '"') cell += c;
      else if (text[at + 1] === '"') {
        cell += '"';
        at += 1;
      } else quoted = false;
    } else if (c === '"' && cell.trim() === '') {
      quoted = true;
      wasQuoted = true;
      cell = '';
    } else if (c === separator) endCell();
    else if (c === '\n' || c === '\r') {
      if (c === '\r' && text[at + 1] === '\n') at += 1;
      endRow();
    } else if (!(wasQuoted && /\s/.test(c))) cell += c;
  }
  if (quoted) broken('A quotation mark is not closed.', 'Export the measurements again.');
  if (cell !== '' || row.length > 0) endRow();
  return records;
}
