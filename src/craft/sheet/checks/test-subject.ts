import { type BlankShape, developBlank, type FlatOutline } from '#craft/blank';
import { layOutSheet } from '../layout.js';
import type { PlacementChoice } from '../placing.js';
import { newSheetId } from '../sheet-id.js';
import type { SheetUnderCheck, SmallPicture } from './subject.js';

/** For tests: a sound sheet (a covered 100 mm tile on A3) in which single things can then be made wrong. */
export interface Wrong {
  shape?: BlankShape;
  bleedMm?: number;
  safeMm?: number;
  toleranceMm?: number;
  coating?: 'polymer' | 'fibre' | 'none';
  seenThrough?: boolean;
  polyesterPercent?: number | null;
  pixels?: readonly [number, number];
  placement?: Partial<PlacementChoice>;
  picture?: SmallPicture | null;
  copies?: number;
  paper?: { widthMm: number; heightMm: number; marginMm: number };
  mirroredBy?: 'sheet' | 'driver';
  colour?: SheetUnderCheck['colour'];
}

export const tile: BlankShape = { kind: 'rectangle', widthMm: 100, heightMm: 100, cornerRadiusMm: 0 };

export function subjectWith(wrong: Wrong = {}): SheetUnderCheck {
  const shape = wrong.shape ?? tile;
  const outline: FlatOutline = developBlank(shape);
  const bleedMm = wrong.bleedMm ?? 3;
  const [widthPixels, heightPixels] = wrong.pixels ?? [2000, 2000];
  const placement: PlacementChoice = {
    mode: 'fill',
    scale: 1,
    offsetXMm: 0,
    offsetYMm: 0,
    rotationDegrees: 0,
    ...wrong.placement,
  };
  const layout = layOutSheet({
    sheetId: newSheetId(Uint8Array.from([9, 8, 7, 6, 5, 4])),
    paper: wrong.paper ?? { widthMm: 297, heightMm: 420, marginMm: 3 },
    outline,
    bleedMm,
    artworkPixels: { widthPixels, heightPixels },
    placement,
    copies: wrong.copies ?? 1,
    mirrorOnWriting: wrong.mirroredBy !== 'driver',
    seenThrough: wrong.seenThrough,
  });
  return {
    blank: {
      name: 'Tile',
      shape,
      toleranceMm: wrong.toleranceMm ?? 1,
      safeMm: wrong.safeMm ?? 5,
      coating: { kind: wrong.coating ?? 'polymer', seenThrough: wrong.seenThrough },
      polyesterPercent: wrong.polyesterPercent ?? null,
    },
    outline,
    bleedMm,
    artworkPixels: { widthPixels, heightPixels },
    placement,
    layout,
    mirroredBy: wrong.mirroredBy ?? 'sheet',
    picture: wrong.picture ?? null,
    colour: wrong.colour ?? { calibrated: true, unreachableShare: 0, thresholdDeltaE00: 3 },
  };
}

export type Paint = (
  x: number,
  y: number,
) => readonly [number, number, number] | readonly [number, number, number, number];

/** A picture painted pixel by pixel, x and y from 0 to 1. */
export function painted(widthPixels: number, heightPixels: number, paint: Paint): SmallPicture {
  const rgba = new Uint8Array(widthPixels * heightPixels * 4);
  for (let row = 0; row < heightPixels; row += 1) {
    for (let column = 0; column < widthPixels; column += 1) {
      const [r, g, b, a = 255] = paint((column + 0.5) / widthPixels, (row + 0.5) / heightPixels);
      rgba.set([r, g, b, a], 4 * (row * widthPixels + column));
    }
  }
  return { widthPixels, heightPixels, rgba };
}
