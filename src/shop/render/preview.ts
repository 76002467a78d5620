import type { SheetPlan } from '#craft/sheet';
import type { PieceSample, PreviewRequest, RenderSource } from './types.js';

export async function renderPreview(_request: PreviewRequest): Promise<Buffer> {
  throw new Error('not yet');
}
export async function samplePiece(
  _request: RenderSource & { readonly plan: SheetPlan; readonly maxPixels: number },
): Promise<PieceSample> {
  throw new Error('not yet');
}
