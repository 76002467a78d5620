import type { Triple } from '#craft/colour';
import type { ColourModel, InkInverse } from '#craft/inkmodel';

/** A path ready to be asked. */
export interface KnownPath {
  readonly model: ColourModel;
  readonly inverse: InkInverse;
  /** Media-relative Lab → device values 0..1, where the path's own tables are to be used; absent: by the inverse. */
  readonly deviceOf?: ((relativeLab: Triple) => Triple) | undefined;
  /** False: nobody knows how well the path was measured. */
  readonly isDoubtKnown: boolean;
  /** Mean error of the readers that the patches were read with, ΔE00; adds to the model's doubt. */
  readonly readingErrorDeltaE00: number;
}

export interface ShownMesh {
  readonly lab: number[];
  readonly srgb: number[];
  readonly triangles: number[];
}
