import type { FlatOutline } from '#craft/blank';
import type { ArtworkPlacement } from '#craft/sheet';

/** How much of the bench is seen: half extents in millimetres round the middle of the face. */
export interface HalfView {
  readonly xMm: number;
  readonly yMm: number;
}

/** The face with its bleed and, up to 1.7 times that, the artwork that hangs over. */
export function halfViewOf(outline: FlatOutline, bleedMm: number, placed: ArtworkPlacement): HalfView {
  const faceX = outline.widthMm / 2 + bleedMm;
  const faceY = outline.heightMm / 2 + bleedMm;
  const angle = (placed.rotationDegrees * Math.PI) / 180;
  const cos = Math.abs(Math.cos(angle));
  const sin = Math.abs(Math.sin(angle));
  const artX = Math.abs(placed.centreXMm) + (placed.widthMm * cos + placed.heightMm * sin) / 2;
  const artY = Math.abs(placed.centreYMm) + (placed.widthMm * sin + placed.heightMm * cos) / 2;
  return {
    xMm: Math.max(faceX, Math.min(artX, faceX * 1.7)) * 1.08,
    yMm: Math.max(faceY, Math.min(artY, faceY * 1.7)) * 1.08,
  };
}
