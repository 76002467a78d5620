import type { Triple } from '#craft/colour';

/** What a person picked on a grey sheet. Device values 0..255. */
export interface EyeAnswers {
  /** For each row the device grey (0..1) round which its candidates lie, and the most neutral of them. */
  readonly rows: readonly { readonly level: number; readonly chosen: { readonly deviceRgb: Triple } }[];
  /** The first step that can be told from black, the first that can be told from white, the one like the grey card. */
  readonly fromBlack: Triple;
  readonly fromWhite: Triple;
  readonly likeCard: Triple;
}

/** All that is needed to make the same model again (given the same base); plain JSON. */
export interface EyeModelData {
  readonly format: 'dyewright-eye-model';
  readonly version: 1;
  /** For red, green, blue: device value → the base's device value, both 0..1, rising; monotone cubic between. */
  readonly curves: readonly [EyeCurve, EyeCurve, EyeCurve];
  /** Media-relative luminance of black over plain sRGB; 0 over a base path. */
  readonly blackY: number;
  /** Lightness of the ground over plain sRGB, absolute; null over a base path. */
  readonly groundL: number | null;
  /** Standard deviation of neutrals and of strong colours, Lab units. */
  readonly neutralSd: Triple;
  readonly colourSd: Triple;
}

export interface EyeCurve {
  readonly device: readonly number[];
  readonly base: readonly number[];
}
