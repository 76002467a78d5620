/** Colour spaces a device side may have here. Others are refused as `profile.unsupported` when used. */
export type DeviceSpace = 'RGB' | 'GRAY' | 'CMYK';

export interface IccHeader {
  readonly byteLength: number;
  /** 2.4 → major 2, minor 4. */
  readonly version: { readonly major: number; readonly minor: number; readonly fix: number };
  /** Four-character signature: 'mntr', 'prtr', 'scnr', 'spac', 'link', 'abst', 'nmcl'. */
  readonly deviceClass: string;
  /** Four-character signature with trailing blanks removed: 'RGB', 'GRAY', 'CMYK', 'Lab'… */
  readonly colourSpace: string;
  readonly pcs: 'XYZ' | 'Lab';
  readonly renderingIntent: number;
}

/** A one-dimensional curve on 0..1. */
export type IccCurve =
  | { readonly kind: 'sampled'; readonly values: Float64Array }
  /** ICC.1:2022 10.18, function types 0..4 with their parameters g a b c d e f (absent ones left out). */
  | {
      readonly kind: 'parametric';
      readonly functionType: 0 | 1 | 2 | 3 | 4;
      readonly parameters: readonly number[];
    };

/** A colour grid, first input channel varying slowest; values 0..1. */
export interface IccGrid {
  readonly inputChannels: number;
  readonly outputChannels: number;
  /** Points along each input channel. */
  readonly points: readonly number[];
  readonly values: Float32Array;
}

export type IccStage =
  | { readonly kind: 'curves'; readonly curves: readonly IccCurve[] }
  /** Row-major rows × columns, then an offset for each row. */
  | {
      readonly kind: 'matrix';
      readonly rows: 3;
      readonly matrix: readonly number[];
      readonly offset: readonly number[];
    }
  | { readonly kind: 'grid'; readonly grid: IccGrid };

/** A lut8, lut16, lutAToB or lutBToA tag as the stages it runs through. */
export interface IccLut {
  readonly kind: 'lut';
  readonly type: 'mft1' | 'mft2' | 'mAB ' | 'mBA ';
  readonly inputChannels: number;
  readonly outputChannels: number;
  readonly stages: readonly IccStage[];
}

export type IccTag =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'xyz'; readonly xyz: readonly [number, number, number] }
  | { readonly kind: 'curve'; readonly curve: IccCurve }
  | { readonly kind: 'numbers'; readonly values: readonly number[] }
  | IccLut
  /** A tag of a type not used here; left alone. */
  | { readonly kind: 'other'; readonly type: string };

/** A profile taken apart. Plain data: it may be posted to a worker. */
export interface IccProfile {
  readonly header: IccHeader;
  readonly tags: ReadonlyMap<string, IccTag>;
}

export interface ProfileDescription {
  readonly description: string;
  readonly copyright: string;
  /** '2.4.0' */
  readonly version: string;
  /** In words: 'output (printer)', 'display', 'input (scanner or camera)', 'colour space'. */
  readonly deviceClass: string;
  readonly colourSpace: DeviceSpace | 'other';
  readonly pcs: 'XYZ' | 'Lab';
  /** Intents the profile has colour of its own for, in the direction colour → device (device → colour for sources). */
  readonly intents: readonly Exclude<Intent, 'absolute'>[];
  readonly hasTables: boolean;
  /** Can stand as the artwork's side. */
  readonly canBeSource: boolean;
  /** Can stand as the printer's side: RGB, and there is a way from colour to device. */
  readonly canBeDestination: boolean;
  /** An output-class RGB profile with a way from colour to device: what may be imported as a colour path. */
  readonly isRgbOutput: boolean;
  /** Media white, XYZ as the profile states it; null if absent. */
  readonly mediaWhite: readonly [number, number, number] | null;
}

/** The four rendering intents of ICC.1:2022, 7.2.15. */
export type Intent = 'perceptual' | 'relative' | 'saturation' | 'absolute';

export interface TransformOptions {
  readonly source: IccProfile;
  readonly destination: IccProfile;
  readonly intent: Intent;
  readonly blackPointCompensation: boolean;
}

/** Encoded device values 0..1 → encoded device values 0..1 in double precision: the truth links are held to. */
export interface Transform {
  readonly inputChannels: number;
  readonly outputChannels: number;
  /** Reads `inputChannels` values of `input`, writes `outputChannels` values (0..1) to `output` and returns it. */
  convert(input: ArrayLike<number>, output?: Float64Array): Float64Array;
}
