import type { FlatOutline } from '#craft/blank';
import { mmPerInch } from '#craft/units';
import type { ArtworkPlacement } from './plan.js';
import { cosSin } from './turn.js';

export interface PixelSize {
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/** What a person chose; the contract's `Placement` has this shape. */
export interface PlacementChoice {
  readonly mode: 'fill' | 'fit' | 'free';
  readonly scale: number;
  readonly offsetXMm: number;
  readonly offsetYMm: number;
  readonly rotationDegrees: number;
}

/**
 * Where the artwork lies on one piece, as it should read.
 *
 * fill  covers the trim grown by the bleed, at any rotation, and is as small as that allows.
 *       An offset moves it only as far as it still covers (the offset is shortened, the size never changes).
 * fit   all of it inside the face: the whole box of a rectangle (rounded corners round the picture too), inside the
 *       curve of an ellipse. An offset moves it only as far as it stays inside.
 * free  `scale` times the size it would fit at without rotation; offset and rotation exactly as given.
 *
 * The artwork's proportions are always kept. `bleedMm` matters to fill only.
 */
export function placeArtwork(
  outline: FlatOutline,
  artworkPixels: PixelSize,
  placement: PlacementChoice,
  options: { readonly bleedMm: number },
): ArtworkPlacement {
  const aspect = artworkPixels.widthPixels / artworkPixels.heightPixels;
  const { rotationDegrees } = placement;
  const wanted = { x: placement.offsetXMm, y: placement.offsetYMm };
  switch (placement.mode) {
    case 'fill': {
      const grown = grow(outline, options.bleedMm);
      const size = fillSize(grown, aspect, rotationDegrees);
      return placed(size, keepCovering(grown, size, rotationDegrees, wanted), rotationDegrees);
    }
    case 'fit': {
      const size = fitSize(outline, aspect, rotationDegrees);
      return placed(size, keepInside(outline, size, rotationDegrees, wanted), rotationDegrees);
    }
    case 'free': {
      const upright = fitSize(outline, aspect, 0);
      const size = { width: upright.width * placement.scale, height: upright.height * placement.scale };
      return placed(size, wanted, rotationDegrees);
    }
  }
}

/** The same place on the piece said as a `free` choice: what a hand that starts to drag needs. */
export function asFreePlacement(
  outline: FlatOutline,
  artworkPixels: PixelSize,
  placement: ArtworkPlacement,
): PlacementChoice {
  const upright = fitSize(outline, artworkPixels.widthPixels / artworkPixels.heightPixels, 0);
  return {
    mode: 'free',
    scale: placement.widthMm / upright.width,
    offsetXMm: placement.centreXMm,
    offsetYMm: placement.centreYMm,
    rotationDegrees: placement.rotationDegrees,
  };
}

/** Width in millimetres that `free` gives at scale 1: divide a wished width by it to get the scale. */
export function freeWidthAtScaleOneMm(outline: FlatOutline, artworkPixels: PixelSize): number {
  return fitSize(outline, artworkPixels.widthPixels / artworkPixels.heightPixels, 0).width;
}

/** Artwork pixels per inch of the finished piece. Proportions are kept, so one number serves both ways. */
export function effectivePpi(artworkPixels: PixelSize, placement: ArtworkPlacement): number {
  return (artworkPixels.widthPixels / placement.widthMm) * mmPerInch;
}

interface Size {
  readonly width: number;
  readonly height: number;
}
interface Vector {
  readonly x: number;
  readonly y: number;
}

function placed(size: Size, centre: Vector, rotationDegrees: number): ArtworkPlacement {
  return {
    widthMm: size.width,
    heightMm: size.height,
    centreXMm: centre.x,
    centreYMm: centre.y,
    rotationDegrees,
  };
}

function grow(outline: FlatOutline, byMm: number): FlatOutline {
  return { ...outline, widthMm: outline.widthMm + 2 * byMm, heightMm: outline.heightMm + 2 * byMm };
}

/**
 * Width and height of the outline seen along the artwork's own axes: the support of a rectangle (corners counted
 * square, as bleed is printed) or of an ellipse, 2√(a²cos² + b²sin²).
 */
function spanAlongArtwork(outline: FlatOutline, rotationDegrees: number): Size {
  const { cos, sin } = cosSin(rotationDegrees);
  const { widthMm: w, heightMm: h } = outline;
  if (outline.form === 'ellipse') {
    return { width: Math.hypot(w * cos, h * sin), height: Math.hypot(w * sin, h * cos) };
  }
  return {
    width: w * Math.abs(cos) + h * Math.abs(sin),
    height: w * Math.abs(sin) + h * Math.abs(cos),
  };
}

function fillSize(grown: FlatOutline, aspect: number, rotationDegrees: number): Size {
  const span = spanAlongArtwork(grown, rotationDegrees);
  return span.width >= span.height * aspect
    ? { width: span.width, height: span.width / aspect }
    : { width: span.height * aspect, height: span.height };
}

function keepCovering(grown: FlatOutline, size: Size, rotationDegrees: number, wanted: Vector): Vector {
  const span = spanAlongArtwork(grown, rotationDegrees);
  const { cos, sin } = cosSin(rotationDegrees);
  // Into the artwork's axes, shorten, and back.
  const along = clamp(wanted.x * cos + wanted.y * sin, (size.width - span.width) / 2);
  const across = clamp(-wanted.x * sin + wanted.y * cos, (size.height - span.height) / 2);
  return { x: along * cos - across * sin, y: along * sin + across * cos };
}

function fitSize(outline: FlatOutline, aspect: number, rotationDegrees: number): Size {
  const { cos, sin } = cosSin(rotationDegrees);
  const { widthMm: w, heightMm: h } = outline;
  if (outline.form === 'ellipse') {
    // Artwork of width 1: the corner that leaves first decides.
    const reach = Math.max(
      ...halfDiagonals({ width: 1, height: 1 / aspect }, cos, sin).map((p) =>
        Math.hypot(p.x / (w / 2), p.y / (h / 2)),
      ),
    );
    return { width: 1 / reach, height: 1 / reach / aspect };
  }
  const boxWidth = Math.abs(cos) + Math.abs(sin) / aspect;
  const boxHeight = Math.abs(sin) + Math.abs(cos) / aspect;
  const byWidth = w / boxWidth;
  const byHeight = h / boxHeight;
  if (byWidth <= byHeight) return { width: byWidth, height: byWidth / aspect };
  // Height first, so that a picture as high as the face is exactly that high when upright.
  const height = h / (boxHeight * aspect);
  return { width: height * aspect, height };
}

function keepInside(outline: FlatOutline, size: Size, rotationDegrees: number, wanted: Vector): Vector {
  const { cos, sin } = cosSin(rotationDegrees);
  const corners = halfDiagonals(size, cos, sin);
  if (outline.form === 'rectangle') {
    const boxWidth = 2 * Math.max(...corners.map((p) => Math.abs(p.x)));
    const boxHeight = 2 * Math.max(...corners.map((p) => Math.abs(p.y)));
    return {
      x: clamp(wanted.x, (outline.widthMm - boxWidth) / 2),
      y: clamp(wanted.y, (outline.heightMm - boxHeight) / 2),
    };
  }
  // Ellipse: go along the wished direction until the first corner meets the curve.
  const a = outline.widthMm / 2;
  const b = outline.heightMm / 2;
  const dx = wanted.x / a;
  const dy = wanted.y / b;
  const dd = dx * dx + dy * dy;
  if (dd === 0) return { x: 0, y: 0 };
  let share = 1;
  for (const corner of corners) {
    for (const sign of [1, -1]) {
      const px = (sign * corner.x) / a;
      const py = (sign * corner.y) / b;
      const pd = px * dx + py * dy;
      const left = Math.max(0, pd * pd + dd * (1 - px * px - py * py));
      share = Math.min(share, Math.max(0, (-pd + Math.sqrt(left)) / dd));
    }
  }
  return { x: wanted.x * share, y: wanted.y * share };
}

/** Two neighbouring corners of the rotated artwork, from its centre; the other two are their opposites. */
function halfDiagonals(size: Size, cos: number, sin: number): readonly [Vector, Vector] {
  const x = size.width / 2;
  const y = size.height / 2;
  return [
    { x: x * cos - y * sin, y: x * sin + y * cos },
    { x: x * cos + y * sin, y: x * sin - y * cos },
  ];
}

function clamp(value: number, most: number): number {
  const bound = Math.max(0, most);
  return Math.min(bound, Math.max(-bound, value)) + 0;
}
