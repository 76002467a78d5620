import type { PixelArtwork } from '../geometry/pixel-sheet.js';

/** A cut of the upright resampled artwork (`u`, `v` its left and top) and where that cut lies in the piece's box. */
export interface VisibleCut {
  readonly u: number;
  readonly v: number;
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly top: number;
}

/**
 * Which part of artwork turned by whole quarters shows in a box; null when none does. Turning clockwise by 90°
 * takes (u, v) of a w × h picture to (h − 1 − v, u).
 */
export function visibleCut(artwork: PixelArtwork, boxWidth: number, boxHeight: number): VisibleCut | null {
  const { width: w, height: h, rotationDegrees } = artwork;
  const sideways = rotationDegrees === 90 || rotationDegrees === 270;
  const turnedWidth = sideways ? h : w;
  const turnedHeight = sideways ? w : h;
  const left = Math.round(artwork.centreX - turnedWidth / 2);
  const top = Math.round(artwork.centreY - turnedHeight / 2);
  // In the turned picture's own coordinates:
  const x0 = Math.max(0, -left);
  const y0 = Math.max(0, -top);
  const x1 = Math.min(turnedWidth, boxWidth - left);
  const y1 = Math.min(turnedHeight, boxHeight - top);
  if (x1 <= x0 || y1 <= y0) return null;
  const place = { left: left + x0, top: top + y0 };
  const columns = x1 - x0;
  const rows = y1 - y0;
  switch (rotationDegrees) {
    case 90:
      return { u: y0, v: h - x1, width: rows, height: columns, ...place };
    case 180:
      return { u: w - x1, v: h - y1, width: columns, height: rows, ...place };
    case 270:
      return { u: w - y1, v: x0, width: rows, height: columns, ...place };
    default:
      return { u: x0, v: y0, width: columns, height: rows, ...place };
  }
}

/** The upright cut that a box can show of artwork turned by any angle, with some pixels more for interpolation. */
export function visibleCutTurned(
  artwork: PixelArtwork,
  boxWidth: number,
  boxHeight: number,
): Omit<VisibleCut, 'left' | 'top'> | null {
  const { width, height, centreX, centreY, rotationDegrees } = artwork;
  const cos = Math.cos((rotationDegrees * Math.PI) / 180);
  const sin = Math.sin((rotationDegrees * Math.PI) / 180);
  const corners = [
    [0, 0],
    [boxWidth, 0],
    [0, boxHeight],
    [boxWidth, boxHeight],
  ].map(([x, y]) => {
    const dx = x! - centreX;
    const dy = y! - centreY;
    return { u: width / 2 + dx * cos + dy * sin, v: height / 2 - dx * sin + dy * cos };
  });
  const margin = 4;
  const u0 = Math.max(0, Math.floor(Math.min(...corners.map((c) => c.u))) - margin);
  const v0 = Math.max(0, Math.floor(Math.min(...corners.map((c) => c.v))) - margin);
  const u1 = Math.min(width, Math.ceil(Math.max(...corners.map((c) => c.u))) + margin);
  const v1 = Math.min(height, Math.ceil(Math.max(...corners.map((c) => c.v))) + margin);
  return u1 <= u0 || v1 <= v0 ? null : { u: u0, v: v0, width: u1 - u0, height: v1 - v0 };
}
