/** What is pressed. Sizes are of the face that takes the picture; the zod schemas in the contract mirror these. */
export type BlankShape =
  | {
      readonly kind: 'rectangle';
      readonly widthMm: number;
      readonly heightMm: number;
      readonly cornerRadiusMm: number;
    }
  | { readonly kind: 'ellipse'; readonly widthMm: number; readonly heightMm: number }
  | {
      /** A straight cylinder, wrapped round; the wrap leaves `gapMm` free at the handle or seam. */
      readonly kind: 'cylinder';
      readonly diameterMm: number;
      readonly heightMm: number;
      readonly gapMm: number;
      readonly handle: boolean;
    };

/** The flat outline the artwork is placed in: the face itself, or the cylinder's development. */
export interface FlatOutline {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly form: 'rectangle' | 'ellipse';
  readonly cornerRadiusMm: number;
}
