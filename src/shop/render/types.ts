import type { Recipe, SheetOutputOptions } from '#contract';
import type { DeviceLink } from '#craft/icc';
import type { SheetPlan } from '#craft/sheet';

/** What was found in a picture file. Sizes are pixels after EXIF orientation has been applied. */
export interface ArtworkFacts {
  readonly format: 'png' | 'jpeg' | 'tiff' | 'webp' | 'gif' | 'svg';
  /** For a drawing (SVG): the size at which it would be drawn if nobody asked for another. */
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly bitsPerSample: 8 | 16;
  readonly colourModel: 'rgb' | 'grey' | 'cmyk';
  readonly hasAlpha: boolean;
  /** Share of the pixels, 0..1, that are wholly or partly transparent (from a reduced copy). */
  readonly transparentShare: number;
  /** True: lines and shapes, drawn afresh at whatever size is wanted; pixels per inch never run out. */
  readonly vector: boolean;
  /** The embedded ICC profile when it is whole and fits the pixels; null: see `assumed`. */
  readonly icc: Uint8Array | null;
  /** What untagged pixels are taken for; null when `icc` is given. */
  readonly assumed: 'srgb' | 'grey-srgb' | 'generic-cmyk' | null;
  /** What was assumed or will be changed, one plain sentence each. */
  readonly remarks: readonly string[];
}

export interface ProbeLimits {
  /** Refuse pictures of more pixels than this (Problem `image.too-large`). Default 500 000 000. */
  readonly maxPixels?: number;
}

export interface RenderProgress {
  /** 0..1, never falling. */
  readonly fraction: number;
  /** What is being done now: 'Resampling the artwork'. */
  readonly step: string;
}

/** The artwork on its way to paper. `link.inputChannels` fits `artworkFacts.colourModel`: grey 1, rgb 3, cmyk 4. */
export interface RenderSource {
  readonly artworkPath: string;
  readonly artworkFacts: ArtworkFacts;
  readonly link: DeviceLink;
  /** An existing folder for large intermediate files; everything put there is removed again. */
  readonly tempFolder: string;
  readonly signal?: AbortSignal;
}

/** The same for a whole plan: one without pieces (a test sheet) is drawn from its marks alone and needs no artwork. */
export interface SheetSource
  extends Omit<RenderSource, 'artworkPath' | 'artworkFacts' | 'link'>,
    Partial<Pick<RenderSource, 'artworkPath' | 'artworkFacts' | 'link'>> {}

export interface SheetFileRequest extends SheetSource {
  readonly plan: SheetPlan;
  readonly ppi: number;
  readonly output: SheetOutputOptions;
  /** Written under a temporary name beside it, synced, then renamed. */
  readonly outPath: string;
  /** The colour path's profile; embedded when `output.colourTag` is 'tagged'. */
  readonly iccBytes?: Uint8Array;
  readonly onProgress?: (progress: RenderProgress) => void;
  /** Worker threads; default: processors, at most 4. */
  readonly workers?: number;
}

export interface SheetFileResult {
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly bytes: number;
}

/** How far each colour of the artwork is from what the path reaches. */
export interface ReachLookUp {
  /** Encoded source channels 0..1 (as many as the link has inputs) → ΔE00 to the nearest reachable colour. */
  deltaE00At(encoded: Float64Array): number;
  readonly thresholdDeltaE00: number;
}

export type PreviewView =
  /** The sheet as it lies on paper: mirrored when the plan says so, marks and all. */
  | { readonly kind: 'paper' }
  /**
   * The first piece's trim, reading the right way; `proof` takes device RGB to sRGB (null: shown as it is). Of a plan
   * without pieces the whole sheet, marks and all.
   */
  | { readonly kind: 'pressed'; readonly proof: DeviceLink | null }
  /** The first piece's trim in quiet grey, unreachable colours marked. */
  | { readonly kind: 'reach'; readonly reach: ReachLookUp };

export interface PreviewRequest extends SheetSource {
  readonly plan: SheetPlan;
  readonly view: PreviewView;
  /** Longest side of the PNG, at most 4000. */
  readonly maxPixels: number;
}

/** A small copy of one piece's trim, for checks and statistics. */
export interface PieceSample {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Artwork numbers in its own colour model, 8 bit, interleaved, composed onto white. */
  readonly source: Uint8Array;
  readonly sourceChannels: 1 | 3 | 4;
  /** 8-bit device RGB after the link. */
  readonly deviceRgb: Uint8Array;
}

export interface ConvertRequest {
  readonly inPath: string;
  /** The RGB output profile to convert to. */
  readonly iccBytes: Uint8Array;
  readonly intent: 'perceptual' | 'relative' | 'saturation';
  readonly blackPointCompensation: boolean;
  /** `.png`, `.tif` or `.tiff`. */
  readonly outPath: string;
  readonly tempFolder: string;
  readonly maxPixels?: number;
  readonly onProgress?: (progress: RenderProgress) => void;
  readonly signal?: AbortSignal;
  readonly workers?: number;
}

export interface ConvertResult extends SheetFileResult {
  readonly bitsPerSample: 8 | 16;
  readonly remarks: readonly string[];
}

/** What stands on the press ticket. */
export interface TicketRequest {
  readonly outPath: string;
  readonly sheetId: string;
  readonly artworkName: string;
  /** The piece as it should read (see renderPreview 'pressed'), PNG or JPEG. */
  readonly picture: Uint8Array;
  readonly blank: {
    readonly name: string;
    readonly material: string;
    readonly side: string;
    readonly seenThrough: boolean;
    readonly widthMm: number;
    readonly heightMm: number;
  };
  readonly copies: number;
  readonly recipe: Recipe;
  readonly setup: {
    readonly name: string;
    readonly printer: string;
    readonly ink: string;
    readonly paper: string;
    readonly printSide: string;
    readonly driverSettings: readonly string[];
    readonly mirroredBy: 'sheet' | 'driver';
    readonly ppi: number;
  };
  readonly sheetWidthMm: number;
  readonly sheetHeightMm: number;
  readonly colourSentence: string;
  /** Where the record is; becomes the QR code. Null: no code. */
  readonly recordUrl: string | null;
  readonly createdAt: string;
  readonly demo: boolean;
  /** A test sheet, not a piece: what it is pressed on, in words, and what is done with it at the end. */
  readonly testSheet?: { readonly pressedOn: string; readonly lastSteps: readonly string[] };
  /** Instead of the usual ones. */
  readonly cautions?: readonly string[];
  /** A ladder's coupons, in the order to press: a page of their own, the first; the second then has no figures. */
  readonly coupons?: CouponTable;
}

export interface TicketFigure {
  readonly large: string;
  readonly small: string;
}

export interface CouponTable {
  /** What holds for all of them, a sentence each. */
  readonly notes: readonly string[];
  readonly rows: readonly CouponRow[];
}

export interface CouponRow {
  readonly number: number;
  /** What is to be done before it: 'Set 203 °C and wait until the platen has settled.' */
  readonly before: string | null;
  readonly set: TicketFigure;
  readonly time: string;
  /** Null: the same for all. */
  readonly pressure: TicketFigure | null;
}
