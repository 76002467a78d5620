import type { PlaneMap, Point } from '#craft/reading';
import type { Rgb8, RoutePatchName } from '#craft/sheet';

/** Linear light of the reader's own red, green and blue, 0..1 of its full range. */
export type LinearRgb = readonly [number, number, number];

/** A decoded scan or photo and the way from its samples to linear light. */
export interface SampledPicture {
  readonly width: number;
  readonly height: number;
  /** Three samples a pixel, row by row. */
  readonly data: Uint8Array | Uint16Array;
  /** For red, green, blue: linear light for each possible sample (256 or 65536 entries). */
  readonly toLinear: readonly [Float32Array, Float32Array, Float32Array];
}

/**
 * clipped           the reader's range ended: too light to tell
 * too-dark          the reader saw nothing at all
 * specks            much of it was unlike the rest (dust, threads, glare's edge) and was left out
 * uneven            one part of it is lighter than another
 * odd-light         the bare ground beside it is lighter or darker than the light elsewhere explains: glare, shadow
 * few-pixels        too small in the picture for a good mean
 * unlike-its-likes  the same colour elsewhere on the sheet came out otherwise
 */
export type PatchWarning =
  | 'clipped'
  | 'too-dark'
  | 'specks'
  | 'uneven'
  | 'odd-light'
  | 'few-pixels'
  | 'unlike-its-likes';

export interface PatchReading {
  /** Its place in `ChartLayout.patches`. */
  readonly index: number;
  /** Which of the order's patches; null for a control. */
  readonly chosen: number | null;
  readonly deviceRgb: Rgb8;
  /** Mean, with the unevenness of the reader's light taken out. */
  readonly seenRgb: LinearRgb;
  /** The same with the unevenness of the pressing taken out too: what the colour path is made from. */
  readonly evenRgb: LinearRgb;
  /** Standard deviation from pixel to pixel (grain, weave, noise) of those used. */
  readonly sd: LinearRgb;
  /** Pixels (or samples, where there are very many pixels) looked at, and the share of them used. */
  readonly pixels: number;
  readonly usedShare: number;
  readonly warnings: readonly PatchWarning[];
  /** False when a warning makes the value doubtful. */
  readonly isSound: boolean;
  /** Corners of the part that was looked at, in the picture: top left of the sheet first, round as it reads. */
  readonly outline: readonly Point[];
}

/** One device colour of the sheet, its sound patches taken together. */
export interface DistinctColour {
  readonly deviceRgb: Rgb8;
  readonly rgb: LinearRgb;
  /** Standard deviation of `rgb`: the sheet's repeatability over the root of the number of patches. */
  readonly sd: LinearRgb;
  /** Places in `ChartLayout.patches`. */
  readonly patches: readonly number[];
}

/** How evenly the dye went over the sheet, told from controls alone. */
export interface Evenness {
  /** There is an unevenness that the controls' own scatter does not explain. Otherwise nothing was taken out. */
  readonly isKnown: boolean;
  /** Dye beside the sheet's mean, 1 = as much: least and most over the patches, and where. */
  readonly least: { readonly dye: number; readonly where: string };
  readonly most: { readonly dye: number; readonly where: string };
  /** For drawing: `columns` × `rows` values over the area of cells, row by row. */
  readonly map: { readonly columns: number; readonly rows: number; readonly dye: readonly number[] };
}

/** One of the raw patches along the sheet's edge, which show whether the route from file to piece has changed. */
export interface RoutePatchReading {
  readonly name: RoutePatchName;
  readonly deviceRgb: Rgb8;
  /** Mean, on the same footing as `PatchReading.seenRgb`: the unevenness of the reader's light taken out. */
  readonly seenRgb: LinearRgb;
  /** False under a glint or a shadow, clipped, or not the same all over. */
  readonly isSound: boolean;
}

/** How alike the same colour came out at several places, the pressing's smooth unevenness taken out. */
export interface Repeatability {
  /** Standard deviation of one patch, linear light. */
  readonly sd: LinearRgb;
  /** Mean CIEDE2000 from the mean of its likes, the reader's RGB taken as sRGB with the bare ground as white. */
  readonly meanDeltaE00: number;
  /** Patches compared. */
  readonly patches: number;
}

export interface ChartReading {
  readonly sheetId: string;
  /** By the handedness of the marks: transfer paper reads backwards, the pressed piece the right way. */
  readonly surface: 'paper' | 'piece';
  /** How the sheet lies in the picture: turned clockwise by about so much, after having been mirrored or not. */
  readonly lie: { readonly turnedDegrees: 0 | 90 | 180 | 270; readonly mirrored: boolean };
  /** Sheet millimetres (as it should read) → picture pixels, where the sheet lies flat. */
  readonly toPicture: PlaneMap;
  /** In the order of `ChartLayout.patches`; those outside the picture are left out. */
  readonly patches: readonly PatchReading[];
  readonly outside: number;
  /** The bare ground, mean over the sheet. */
  readonly groundRgb: LinearRgb;
  /** Lightest over darkest of the reader's light over the sheet, 1 = even. */
  readonly lightRatio: number;
  readonly evenness: Evenness;
  readonly repeatability: Repeatability;
  /** In the order of the sheet's frame; those not wholly in the picture are left out. */
  readonly routeStrip: readonly RoutePatchReading[];
  readonly registration: {
    readonly expected: number;
    readonly found: number;
    /** Largest movement of the sheet from a flat plane, mm. */
    readonly largestShiftMm: number;
    /** Places in the picture, for drawing. */
    readonly seen: readonly Point[];
  };
  readonly pixelsPerMm: number;
  /** Plain sentences, the gravest first. */
  readonly remarks: readonly string[];
}
