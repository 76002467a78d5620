import {
  cornerMarkerIds,
  type MarkFrame,
  qrGapInMarkers,
  qrSizeInMarkers,
  type RectMm,
  type Rgb8,
} from '#craft/sheet';
import { widthInCaps } from './label-text.js';
import type { CouponLayout, CouponPatchName } from './press-sheet-types.js';
import type { SheetMaterial } from './types.js';

/**
 * Side of a corner marker; a cell is a sixth of it. White is kept round everything at the coupon's edge, more than a
 * cell and more than scissors stray. Small words as small print has them: about 3, 5 and 7 points.
 */
const sizes = {
  hard: { markerMm: 8, edgeMm: 2.5, gapMm: 0.9, groundMm: 0.8, capsMm: [1.7, 1.2, 0.8], leastSideMm: 45 },
  fabric: { markerMm: 12, edgeMm: 3, gapMm: 1.6, groundMm: 1.2, capsMm: [2.6, 1.8, 1.2], leastSideMm: 62 },
} as const;

/** The smallest coupon, either side. */
export const leastCouponMm = (material: SheetMaterial): number => sizes[material].leastSideMm;
/** Longer sides only carry their marks further from the patches. */
export const mostCouponMm = 120;

/** Device colours: what the press does to black and to each ink, and whether grey keeps its hue. */
const patchColours: readonly (readonly [CouponPatchName, Rgb8])[] = [
  ['black', [0, 0, 0]],
  ['cyan', [0, 255, 255]],
  ['magenta', [255, 0, 255]],
  ['yellow', [255, 255, 0]],
  ['grey', [128, 128, 128]],
];

/** ISO 12233 asks for about 5°: enough places between pixels, and the edge still one side's. */
const slantDegrees = 5;
/** Letters and figures whose counters close first when dye spreads. */
const smallWords = 'seagrass 8368';

/**
 * Where things lie on a coupon of a size.
 *
 *     marker   code   number   marker
 *     slanted square, five patches
 *     small words
 *     marker        step       marker
 *
 * @returns null when the coupon is too small or too large
 */
export function couponLayout(
  widthMm: number,
  heightMm: number,
  material: SheetMaterial,
): CouponLayout | null {
  const { markerMm: marker, edgeMm, gapMm, groundMm, capsMm, leastSideMm } = sizes[material];
  const fits = (mm: number): boolean => mm >= leastSideMm && mm <= mostCouponMm;
  if (!fits(widthMm) || !fits(heightMm)) return null;
  const gap = qrGapInMarkers * marker;
  const qr = qrSizeInMarkers * marker;
  const right = widthMm - edgeMm;
  const bottom = heightMm - edgeMm;
  const frame: MarkFrame = {
    markers: [
      { id: cornerMarkerIds.topLeft, rect: square(edgeMm, edgeMm, marker) },
      { id: cornerMarkerIds.topRight, rect: square(right - marker, edgeMm, marker) },
      { id: cornerMarkerIds.bottomRight, rect: square(right - marker, bottom - marker, marker) },
      { id: cornerMarkerIds.bottomLeft, rect: square(edgeMm, bottom - marker, marker) },
    ],
    qr: square(edgeMm + marker + gap, edgeMm, qr),
    routeStrip: [],
  };
  const afterCode = edgeMm + marker + gap + qr;
  const numberSide = 0.75 * marker;
  const number = square(
    (afterCode + right - marker - numberSide) / 2,
    edgeMm + (marker - numberSide) / 2,
    numberSide,
  );

  const lineMm = capsMm.map((cap) => 1.35 * cap);
  const wordsMm = lineMm.reduce((sum, line) => sum + line, 0) + 2 * gapMm;
  const middleTop = edgeMm + qr + 1.3 * gapMm;
  const middleBottom = bottom - marker - 1.3 * gapMm;
  const fieldMm = middleBottom - middleTop - wordsMm - gapMm;

  const targetMm = Math.min(fieldMm, 0.4 * (right - edgeMm));
  const target = square(edgeMm, middleTop + (fieldMm - targetMm) / 2, targetMm);
  const patchLeft = edgeMm + targetMm + 1.2 * gapMm;
  const pitch = (right - patchLeft + gapMm) / patchColours.length;
  const patches = patchColours.map(([name, deviceRgb], i) => ({
    name,
    deviceRgb,
    rect: { xMm: patchLeft + i * pitch, yMm: middleTop, widthMm: pitch - gapMm, heightMm: fieldMm },
  }));

  let y = middleTop + fieldMm + gapMm;
  const words = capsMm.map((capMm, i) => {
    const most = (right - edgeMm) / capMm;
    let text = smallWords;
    while (widthInCaps(`${text} ${smallWords}`) <= Math.min(most, 24)) text = `${text} ${smallWords}`;
    const box = { xMm: edgeMm, yMm: y, widthMm: capMm * widthInCaps(text), heightMm: 1.3 * capMm };
    y += lineMm[i]! + gapMm;
    return { capMm, box, text };
  });
  const label = {
    xMm: edgeMm + marker + gap,
    yMm: bottom - marker,
    widthMm: right - edgeMm - 2 * (marker + gap),
    heightMm: marker,
  };
  const parts = [
    ...frame.markers.map(({ rect }) => rect),
    frame.qr,
    number,
    target,
    ...patches.map(({ rect }) => rect),
    ...words.map(({ box }) => box),
    label,
  ];
  return {
    widthMm,
    heightMm,
    material,
    frame,
    number,
    patches,
    edgeTarget: slantedIn(target, gapMm),
    words,
    label,
    ground: { places: barePlaces(widthMm, heightMm, parts, groundMm), reachMm: 0.45 * groundMm },
  };
}

/**
 * Upright edges lean one way and level ones the other, so that a coupon lying a little askew never has all four
 * along the scanner's rows and columns.
 */
function slantedIn(box: RectMm, gapMm: number): CouponLayout['edgeTarget'] {
  const lean = Math.tan((slantDegrees * Math.PI) / 180);
  const half = box.widthMm / 2;
  const insetMm = 0.12 * half;
  const reach = (half - insetMm) / (1 + lean);
  const [cx, cy] = [box.xMm + half, box.yMm + box.heightMm / 2];
  // Upright: x = ±reach + lean·y; level: y = ±reach + lean·x. A parallelogram; its corners are where they meet.
  const corners = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u, v]) => {
    const x = (reach * (u! + lean * v!)) / (1 - lean * lean);
    const y = (reach * (v! + lean * u!)) / (1 - lean * lean);
    return { xMm: cx + x, yMm: cy + y };
  });
  return { corners, clearMm: insetMm + 0.75 * gapMm };
}

/** A millimetre apart, so far from everything printed and from the coupon's edge. */
function barePlaces(
  widthMm: number,
  heightMm: number,
  parts: readonly RectMm[],
  clearMm: number,
): { xMm: number; yMm: number }[] {
  const places: { xMm: number; yMm: number }[] = [];
  for (let yMm = 1.3; yMm <= heightMm - 1.3; yMm += 0.7) {
    for (let xMm = 1.3; xMm <= widthMm - 1.3; xMm += 0.7) {
      const isBare = parts.every(
        (part) =>
          xMm < part.xMm - clearMm ||
          xMm > part.xMm + part.widthMm + clearMm ||
          yMm < part.yMm - clearMm ||
          yMm > part.yMm + part.heightMm + clearMm,
      );
      if (isBare) places.push({ xMm, yMm });
    }
  }
  return places;
}

const square = (xMm: number, yMm: number, sideMm: number): RectMm => ({
  xMm,
  yMm,
  widthMm: sideMm,
  heightMm: sideMm,
});
