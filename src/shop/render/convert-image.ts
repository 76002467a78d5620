import type { ConvertRequest, ConvertResult } from './types.js';

export async function convertImage(_request: ConvertRequest): Promise<ConvertResult> {
  throw new Error('not yet');
}
