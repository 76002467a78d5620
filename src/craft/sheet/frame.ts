import { type Corner, cornerMark, cornerMarkerIds } from './aruco.js';
import {
  type FrameVariant,
  frameVariants,
  markerSizeMm,
  qrGapInMarkers,
  qrSizeInMarkers,
} from './frame-variant.js';
import { textMarks, wordsFor } from './mark-text.js';
import type { Mark, MarkFrame, RectMm } from './plan.js';
import { qrMark, type SheetCode, writeSheetCode } from './qr.js';
import { routeStripIn, routeStripMarks } from './route-strip.js';

export interface FrameOrder {
  /** From `newSheetId`. */
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Not printable at each edge. */
  readonly marginMm: number;
  readonly mirrorOnWriting: boolean;
  /** A few words beside the marks: blank and artwork name. */
  readonly caption?: string | undefined;
  /** Without it the first of `variants` that there is room for. */
  readonly variant?: FrameVariant | undefined;
  /** Best first; without it the usual ones. */
  readonly variants?: readonly FrameVariant[] | undefined;
}

export interface PlannedFrame {
  readonly frame: MarkFrame;
  readonly variant: FrameVariant;
  readonly marks: readonly Mark[];
  /** Where pieces may lie; no mark reaches into it, and white is left round the marks. */
  readonly liveArea: RectMm;
}

export interface NoFrame {
  readonly frame: null;
  /** One sentence. */
  readonly reason: string;
}

/** White kept round every marker even when the printer reaches the paper's edge. */
const quietEdgeMm = 2;
/** Narrowest patch of the route strip; smaller ones are all edge. */
const narrowestPatchMm = 2.4;
const widestPatchMm = 12;
/** Shortest place for text along a band: lines beside each other, or a column of short lines in an upright one. */
const shortestTextMm = 30;
const shortestColumnMm = 48;

/**
 * The marks of a sheet in reading coordinates. @returns the frame, or one sentence why there is no room.
 * @throws Problem `request.invalid` when the sheet id is none.
 */
export function planFrame(order: FrameOrder): PlannedFrame | NoFrame {
  return planFrames(order)[0] ?? { frame: null, reason: noRoom(order) };
}

/** Every arrangement that there is room for, best marks first: take the first whose live area holds the pieces. */
export function planFrames(order: FrameOrder): PlannedFrame[] {
  const { sheetId, mirrorOnWriting } = order;
  return rooms(order).map(({ variant, size, places }) => {
    const { frame, textBox, liveArea } = places;
    const code: SheetCode = { sheetId, mirrorOnWriting, ...size };
    const marks: Mark[] = [
      ...frame.markers.map(({ id, rect }) => cornerMark(id, rect)),
      qrMark(writeSheetCode(code), frame.qr),
      ...routeStripMarks(frame.routeStrip),
      ...textMarks(textBox, wordsFor(textBox, order.sheetId, order.mirrorOnWriting, order.caption ?? '')),
    ];
    return { frame, variant, marks, liveArea };
  });
}

/** The live areas alone, in the same order: a hundredth of the work, for whoever looks for the right sheet. */
export function liveAreas(order: RoomOrder): Pick<PlannedFrame, 'variant' | 'liveArea'>[] {
  return rooms(order).map(({ variant, places }) => ({ variant, liveArea: places.liveArea }));
}

type RoomOrder = Omit<FrameOrder, 'sheetId' | 'mirrorOnWriting' | 'caption'>;

function rooms(order: RoomOrder): { variant: FrameVariant; size: SheetSize; places: Places }[] {
  if (![order.widthMm, order.heightMm, order.marginMm].every(Number.isFinite)) return [];
  const wanted = order.variant ? [order.variant] : (order.variants ?? frameVariants);
  return wanted.flatMap((variant) => {
    const size: SheetSize = {
      variant,
      // As the QR code can say them, so that a reader finds the very same frame.
      widthMm: hundredth(order.widthMm),
      heightMm: hundredth(order.heightMm),
      marginMm: hundredth(order.marginMm),
    };
    const places = framePlaces(size);
    return places ? [{ variant, size, places }] : [];
  });
}

/** Where the marks of a read sheet stand; null when such a sheet cannot be. */
export function frameOfCode(code: SheetCode): MarkFrame | null {
  return framePlaces(code)?.frame ?? null;
}

type SheetSize = Pick<SheetCode, 'variant' | 'widthMm' | 'heightMm' | 'marginMm'>;

interface Places {
  readonly frame: MarkFrame;
  readonly textBox: RectMm;
  readonly liveArea: RectMm;
}

/** The side arrangements are the band arrangements of the sheet with x and y exchanged. */
function framePlaces({ variant, widthMm, heightMm, marginMm }: SheetSize): Places | null {
  const turned = variant.endsWith('sides') || variant === 'left-only';
  const oneBand = variant === 'top-only' || variant === 'left-only';
  const marker = markerSizeMm(variant, widthMm, heightMm);
  const lengthMm = turned ? heightMm : widthMm;
  const depthMm = turned ? widthMm : heightMm;
  const placed = oneBand
    ? placeOneBand(lengthMm, depthMm, marginMm, marker, turned)
    : placeTwoBands(lengthMm, depthMm, marginMm, marker, turned);
  if (!placed) return null;
  const rect = (r: RectMm): RectMm => (turned ? exchanged(r) : r);
  const corner = (name: Corner): Corner =>
    !turned ? name : name === 'topRight' ? 'bottomLeft' : name === 'bottomLeft' ? 'topRight' : name;
  return {
    frame: {
      markers: placed.markers.map(({ name, rect: r }) => ({
        id: cornerMarkerIds[corner(name)],
        rect: rect(r),
      })),
      qr: rect(placed.qr),
      routeStrip: routeStripIn(rect(placed.strip)),
    },
    textBox: rect(placed.text),
    liveArea: rect(placed.live),
  };
}

interface BandPlaces {
  readonly markers: readonly { readonly name: Corner; readonly rect: RectMm }[];
  readonly qr: RectMm;
  readonly strip: RectMm;
  readonly text: RectMm;
  readonly live: RectMm;
}

/** Top: marker, QR code, text, marker. Bottom: marker, route strip, marker. */
function placeTwoBands(
  lengthMm: number,
  depthMm: number,
  marginMm: number,
  marker: number,
  upright: boolean,
): BandPlaces | null {
  const edge = Math.max(marginMm, quietEdgeMm);
  const gap = qrGapInMarkers * marker;
  const qr = qrSizeInMarkers * marker;
  const right = lengthMm - edge - marker;
  const bottom = depthMm - edge - marker;
  const textX = edge + marker + gap + qr + gap;
  const stripRoom = right - gap - (edge + marker + gap);
  const stripLength = Math.min(stripRoom, routePatchCount * widestPatchMm);
  const liveTop = edge + qr + gap;
  const live = rectFromEdges(marginMm, liveTop, lengthMm - marginMm, bottom - gap);
  const textLength = right - gap - textX;
  if (
    textLength < (upright ? shortestColumnMm : shortestTextMm) ||
    stripLength < routePatchCount * narrowestPatchMm ||
    live.heightMm < 10
  )
    return null;
  return {
    markers: [
      { name: 'topLeft', rect: square(edge, edge, marker) },
      { name: 'topRight', rect: square(right, edge, marker) },
      { name: 'bottomRight', rect: square(right, bottom, marker) },
      { name: 'bottomLeft', rect: square(edge, bottom, marker) },
    ],
    qr: square(edge + marker + gap, edge, qr),
    text: { xMm: textX, yMm: edge, widthMm: textLength, heightMm: qr },
    strip: {
      xMm: (lengthMm - stripLength) / 2,
      yMm: bottom + marker * 0.1,
      widthMm: stripLength,
      heightMm: marker * 0.8,
    },
    live,
  };
}

/** One band: marker, QR code, route strip over text (in an upright band text, then strip), marker. */
function placeOneBand(
  lengthMm: number,
  depthMm: number,
  marginMm: number,
  marker: number,
  upright: boolean,
): BandPlaces | null {
  const edge = Math.max(marginMm, quietEdgeMm);
  const gap = qrGapInMarkers * marker;
  const qr = qrSizeInMarkers * marker;
  const right = lengthMm - edge - marker;
  const middleX = edge + marker + gap + qr + gap;
  const middle = right - gap - middleX;
  const shortestStrip = routePatchCount * narrowestPatchMm;
  const live = rectFromEdges(marginMm, edge + qr + gap, lengthMm - marginMm, depthMm - marginMm);
  const shortest = upright ? shortestColumnMm + gap + shortestStrip : Math.max(shortestTextMm, shortestStrip);
  if (middle < shortest || live.heightMm < 10) return null;
  const stripRoom = upright ? Math.max(shortestStrip, 0.4 * (middle - gap)) : middle;
  const stripLength = Math.min(stripRoom, routePatchCount * widestPatchMm);
  return {
    markers: [
      { name: 'topLeft', rect: square(edge, edge, marker) },
      { name: 'topRight', rect: square(right, edge, marker) },
    ],
    qr: square(edge + marker + gap, edge, qr),
    live,
    ...(upright
      ? {
          text: { xMm: middleX, yMm: edge, widthMm: middle - gap - stripLength, heightMm: qr },
          strip: { xMm: right - gap - stripLength, yMm: edge, widthMm: stripLength, heightMm: marker },
        }
      : {
          text: { xMm: middleX, yMm: edge + 0.48 * qr, widthMm: middle, heightMm: 0.52 * qr },
          strip: { xMm: middleX, yMm: edge, widthMm: stripLength, heightMm: 0.4 * qr },
        }),
  };
}

const routePatchCount = 12;

const hundredth = (mm: number): number => Math.round(mm * 100) / 100;
const square = (xMm: number, yMm: number, sideMm: number): RectMm => ({
  xMm,
  yMm,
  widthMm: sideMm,
  heightMm: sideMm,
});
const rectFromEdges = (left: number, top: number, right: number, bottom: number): RectMm => ({
  xMm: left,
  yMm: top,
  widthMm: right - left,
  heightMm: bottom - top,
});
const exchanged = (r: RectMm): RectMm => ({
  xMm: r.yMm,
  yMm: r.xMm,
  widthMm: r.heightMm,
  heightMm: r.widthMm,
});

function noRoom({ widthMm, heightMm, marginMm }: FrameOrder): string {
  const size = `${Math.round(widthMm)} × ${Math.round(heightMm)} mm`;
  return `A sheet of ${size} with ${marginMm} mm of unprintable edge has no room for the marks.`;
}
