import { checkShape } from './shape.js';
import type { BlankShape, FlatOutline } from './types.js';

export interface DevelopOptions {
  /**
   * Transfer paper bends round the blank with its middle layer half a thickness off the surface, so the paper needs
   * π(D + t) where the blank measures πD. Default 0.1 mm: about what transfer paper of 100 g/m² measures (from
   * memory; at 0.1 mm it adds 0.31 mm to any wrap).
   */
  readonly paperThicknessMm?: number;
}

export const usualPaperThicknessMm = 0.1;

/**
 * The flat outline of the face that takes the picture. A rectangle or ellipse is its own outline; a straight cylinder
 * unrolls to π(D + t) − gap by its height (the frustum's development with equal diameters).
 *
 * @throws Problem `blank.invalid` when the shape cannot be (see `checkShape`).
 */
export function developBlank(shape: BlankShape, options: DevelopOptions = {}): FlatOutline {
  checkShape(shape);
  switch (shape.kind) {
    case 'rectangle':
      return {
        widthMm: shape.widthMm,
        heightMm: shape.heightMm,
        form: 'rectangle',
        cornerRadiusMm: shape.cornerRadiusMm,
      };
    case 'ellipse':
      return { widthMm: shape.widthMm, heightMm: shape.heightMm, form: 'ellipse', cornerRadiusMm: 0 };
    case 'cylinder': {
      const thicknessMm = options.paperThicknessMm ?? usualPaperThicknessMm;
      return {
        widthMm: Math.PI * (shape.diameterMm + thicknessMm) - shape.gapMm,
        heightMm: shape.heightMm,
        form: 'rectangle',
        cornerRadiusMm: 0,
      };
    }
  }
}
