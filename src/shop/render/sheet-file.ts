import type { SheetFileRequest, SheetFileResult } from './types.js';

export async function makeSheetFile(_request: SheetFileRequest): Promise<SheetFileResult> {
  throw new Error('not yet');
}
