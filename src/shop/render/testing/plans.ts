import type { DeviceLink } from '#craft/icc';
import type { Mark, PlannedPiece, RectMm, SheetPlan } from '#craft/sheet';

/** At this resolution one millimetre is exactly ten pixels. */
export const tenPerMm = 254;

export const identity: DeviceLink = { kind: 'identity', inputChannels: 3 };

/** Grey or CMYK to RGB, exact at the ends: 1 − ink; for CMYK (1 − C)(1 − K) and so on at the grid's corners. */
export function plainLink(inputChannels: 1 | 4): DeviceLink {
  const table =
    inputChannels === 1
      ? Uint16Array.from([0, 0, 0, 65535, 65535, 65535])
      : Uint16Array.from(
          Array.from({ length: 16 }, (_, index) => {
            const ink = (bit: number) => (index >> bit) & 1;
            return [3, 2, 1].map((bit) => (ink(bit) || ink(0) ? 0 : 65535));
          }).flat(),
        );
  return {
    kind: 'grid',
    inputChannels,
    gridPoints: 2,
    inputCurves: null,
    table,
    error8: { mean: 0, max: 0 },
  };
}

export function piece(
  trim: RectMm,
  options: Partial<PlannedPiece> & { bleedMm?: number } = {},
): PlannedPiece {
  const { bleedMm = 0, ...rest } = options;
  return {
    index: 0,
    trim,
    trimForm: 'rectangle',
    trimCornerRadiusMm: 0,
    bleed: {
      xMm: trim.xMm - bleedMm,
      yMm: trim.yMm - bleedMm,
      widthMm: trim.widthMm + 2 * bleedMm,
      heightMm: trim.heightMm + 2 * bleedMm,
    },
    artwork: {
      widthMm: trim.widthMm + 2 * bleedMm,
      heightMm: trim.heightMm + 2 * bleedMm,
      centreXMm: 0,
      centreYMm: 0,
      rotationDegrees: 0,
    },
    ...rest,
  };
}

export function plan(
  widthMm: number,
  heightMm: number,
  pieces: readonly PlannedPiece[],
  options: { readonly mirror?: boolean; readonly marks?: readonly Mark[] } = {},
): SheetPlan {
  return {
    sheetId: 'TEST',
    widthMm,
    heightMm,
    mirrorOnWriting: options.mirror ?? false,
    pieces,
    marks: options.marks ?? [],
    frame: null,
  };
}
