import path from 'node:path';
import type { OutputFormat, SheetOutputOptions, TestSheet, TestSheetOrderInput } from '#contract';
import { Problem } from '#craft/problem';
import type { Shop } from '#shop';
import { putFile } from '../out-files.js';
import type { Say } from '../say.js';
import { stoppable } from './common.js';

const formats: Readonly<Record<string, OutputFormat>> = {
  '.pdf': 'pdf',
  '.png': 'png',
  '.tif': 'tiff',
  '.tiff': 'tiff',
};

/** What a test sheet's file is to be, by its name. */
export function outputFor(file: string): SheetOutputOptions {
  const format = formats[path.extname(file).toLowerCase()];
  if (format !== undefined) return { format, bitsPerSample: 8, colourTag: 'device' };
  throw new Problem('output.unsupported', `${file} is no kind of file that a sheet can be.`, {
    remedy: 'Name a .pdf, a .png or a .tif.',
  });
}

/** Makes a test sheet in the shop and puts it and its ticket (`NAME-ticket.pdf`) where the person wants them. */
export async function makeTestSheetFiles(
  shop: Shop,
  order: TestSheetOrderInput,
  out: string,
  say: Say,
): Promise<{ sheet: TestSheet; written: string[] }> {
  const sheet = await shop.testSheets.make(order, outputFor(out), {
    signal: stoppable(),
    onProgress: (share, step) => say.progress(share, step),
  });
  const ticket = path.join(path.dirname(out), `${path.parse(out).name}-ticket.pdf`);
  const written: string[] = [];
  for (const file of sheet.files) {
    const target = file.kind === 'sheet' ? out : ticket;
    await putFile((await shop.testSheets.openFile(sheet.id, file.fileName)).path, path.resolve(target));
    written.push(target);
  }
  return { sheet, written };
}
