import type { Blank } from '#contract';
import { developBlank } from '#craft/blank';

/** The flat face of a blank, when it has one on which a sheet can lie. */
export function flatFace(blank: Blank | null): { widthMm: number; heightMm: number } | null {
  if (!blank || blank.shape.kind === 'cylinder') return null;
  const face = developBlank(blank.shape);
  // Of an ellipse the largest rectangle inside: the side over √2.
  const share = blank.shape.kind === 'ellipse' ? Math.SQRT1_2 : 1;
  return {
    widthMm: Math.floor(face.widthMm * share * 10) / 10,
    heightMm: Math.floor(face.heightMm * share * 10) / 10,
  };
}
