import { broken, shown } from './broken.js';

/** One table as text, before anything is made of its columns. */
export interface TextTable {
  readonly keywords: ReadonlyMap<string, string>;
  readonly fields: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Bounds on what is taken in: far above any chart, far below what would hang the program. */
export const textLimits = { characters: 64_000_000, rows: 100_000, fields: 2_000 } as const;

type Block = 'head' | 'format' | 'data';

/**
 * Takes a CGATS.17 / ISO 28178 text apart into its tables.
 * @throws Problem `measurements.broken`
 */
export function parseCgats(text: string): TextTable[] {
  const tables: TextTable[] = [];
  let keywords = new Map<string, string>();
  let fields: string[] = [];
  let rows: string[][] = [];
  let loose: string[] = [];
  let tabbed = false;
  let block = 'head' as Block;

  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
  lines.forEach((line, index) => {
    const where = `line ${index + 1}`;
    const word = /^\s*([A-Z_]+)/.exec(line)?.[1];
    if (word === 'BEGIN_DATA_FORMAT') {
      expect(block, 'head', line, where);
      block = 'format';
      fields = [];
      tabbed = false;
    } else if (word === 'END_DATA_FORMAT') {
      expect(block, 'format', line, where);
      block = 'head';
      if (tabbed) while (fields.at(-1) === '') fields.pop();
      if (fields.length === 0)
        broken('The list of columns is empty.', 'Export the measurements again.', where);
      if (fields.length > textLimits.fields) tooMany('columns', where);
    } else if (word === 'BEGIN_DATA') {
      expect(block, 'head', line, where);
      if (fields.length === 0) {
        broken('Values come before the list of columns.', 'Export the measurements again.', where);
      }
      block = 'data';
      rows = [];
      loose = [];
    } else if (word === 'END_DATA') {
      expect(block, 'data', line, where);
      tables.push(finish(keywords, fields, rows, loose, where));
      block = 'head';
      // A further table has keywords of its own; columns stay until others are given.
      keywords = new Map();
    } else if (/^\s*#/.test(line)) {
      // A comment, in whatever block.
    } else if (block === 'format') {
      if (line.includes('\t')) tabbed = true;
      fields.push(...(line.includes('\t') ? tabCells(line) : words(line, where)));
    } else if (block === 'data') {
      takeRow(line, where, fields, rows, loose);
    } else {
      takeKeyword(line, where, keywords);
    }
  });
  if (block === 'format') broken('The list of columns has no end.', 'The file is cut off: export it again.');
  if (block === 'data') broken('The values have no end.', 'The file is cut off: export it again.');
  return tables;
}

function expect(block: Block, wanted: Block, line: string, where: string): void {
  if (block === wanted) return;
  broken(`“${shown(line)}” stands where it cannot.`, 'Export the measurements again.', where);
}

function tooMany(what: string, where: string): never {
  return broken(
    `The file has more ${what} than can be read.`,
    'Export a smaller set of measurements.',
    where,
  );
}

function takeRow(
  line: string,
  where: string,
  fields: readonly string[],
  rows: string[][],
  loose: string[],
): void {
  // Tabs keep empty cells and names with blanks; otherwise any blank parts two values.
  if (line.includes('\t')) {
    const cells = tabCells(line);
    while (cells.length > fields.length && cells.at(-1) === '') cells.pop();
    if (cells.length === fields.length) {
      rows.push(cells);
      if (rows.length > textLimits.rows) tooMany('rows', where);
      return;
    }
  }
  const values = words(line, where);
  if (values.length === 0) return;
  if (loose.length === 0 && values.length === fields.length) rows.push(values);
  else loose.push(...values);
  if (rows.length + loose.length / fields.length > textLimits.rows) tooMany('rows', where);
}

/** Rows broken over several lines are put together again if the count comes out even. */
function finish(
  keywords: ReadonlyMap<string, string>,
  fields: readonly string[],
  rows: string[][],
  loose: readonly string[],
  where: string,
): TextTable {
  if (loose.length % fields.length !== 0) {
    broken(
      `A row of values has not the ${fields.length} values that the columns ask for.`,
      'Export the measurements again, or mend the row with missing or surplus values.',
      where,
    );
  }
  for (let at = 0; at < loose.length; at += fields.length) rows.push(loose.slice(at, at + fields.length));
  const stated = Number(keywords.get('NUMBER_OF_SETS'));
  if (Number.isInteger(stated) && stated !== rows.length) {
    broken(
      `The file says it holds ${stated} rows and holds ${rows.length}.`,
      'It is cut off or was changed by hand: export it again.',
      where,
    );
  }
  return { keywords, fields, rows };
}

function takeKeyword(line: string, where: string, keywords: Map<string, string>): void {
  if (/^\s*(#|$)/.test(line)) return;
  const [name, ...values] = words(line, where);
  if (name === undefined || name === 'KEYWORD') return;
  if (keywords.size >= 10_000) tooMany('keywords', where);
  // WEIGHTING_FUNCTION and others may stand more than once: illuminant, then observer.
  const before = keywords.get(name.toUpperCase());
  const value = values.join(' ');
  keywords.set(name.toUpperCase(), before === undefined ? value : `${before}; ${value}`);
}

/** Cells between tabs, without their quotes; empty ones stay. */
function tabCells(line: string): string[] {
  return line.split('\t').map((cell) => {
    const plain = cell.trim();
    return /^".*"$/.test(plain) ? plain.slice(1, -1).replaceAll('""', '"') : plain;
  });
}

/** Words between blanks; quoted ones may hold blanks, and "" for a quote; # begins a comment. */
function words(line: string, where: string): string[] {
  const out: string[] = [];
  let at = 0;
  while (at < line.length) {
    const c = line[at]!;
    if (/\s/.test(c)) {
      at += 1;
    } else if (c === '#') {
      break;
    } else if (c === '"') {
      const end = closingQuote(line, at + 1);
      if (end < 0) broken('A quotation mark is not closed.', 'Export the measurements again.', where);
      out.push(line.slice(at + 1, end).replaceAll('""', '"'));
      at = end + 1;
    } else {
      const start = at;
      while (at < line.length && !/\s/.test(line[at]!)) at += 1;
      out.push(line.slice(start, at));
    }
  }
  return out;
}

function closingQuote(line: string, from: number): number {
  for (let at = line.indexOf('"', from); at >= 0; at = line.indexOf('"', at + 2)) {
    if (line[at + 1] !== '"') return at;
  }
  return -1;
}
