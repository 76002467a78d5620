import { type FlatOutline, grownOutline, outlinePolygon, type PointMm } from '#craft/blank';
import type { ArtworkPlacement } from '../plan.js';
import { cosSin } from '../turn.js';

export type Side = 'left' | 'right' | 'top' | 'bottom';
export const sides: readonly Side[] = ['left', 'top', 'right', 'bottom'];

/** A place of the bleed's edge that the artwork does not reach. */
export interface Shortfall {
  readonly side: Side;
  /** To the nearest of the artwork, and no more than straight inward. */
  readonly depthMm: number;
  /** The nearest of the artwork, just within it, from the centre of the trim. */
  readonly xMm: number;
  readonly yMm: number;
}

const raysPerSide = 200;

/**
 * Look inward at right angles from many places of the bleed's edge (its corners among them) and tell how far away the
 * artwork is; places already covered, and lines that never meet the artwork, give nothing. Straight inward is the width
 * of a bare rim; the nearest way is shorter where a turned picture leaves a long thin wedge.
 */
export function shortfalls(outline: FlatOutline, bleedMm: number, artwork: ArtworkPlacement): Shortfall[] {
  return bleedRays(outline, bleedMm).flatMap(({ xMm, yMm, dx, dy, side }) => {
    const inwardMm = depthToArtwork(artwork, xMm, yMm, dx, dy);
    if (inwardMm === null || inwardMm <= 0) return [];
    const nearest = nearestOfArtwork(artwork, xMm, yMm);
    const depthMm = Math.min(inwardMm, Math.hypot(nearest.xMm - xMm, nearest.yMm - yMm));
    return [{ side, depthMm, ...nearest }];
  });
}

/** A millionth of the artwork within its border, so that a pixel is found there. */
const justWithin = 0.5 - 1e-6;

function nearestOfArtwork(
  { widthMm, heightMm, ...artwork }: ArtworkPlacement,
  xMm: number,
  yMm: number,
): PointMm {
  const { cos, sin } = cosSin(artwork.rotationDegrees);
  const dx = xMm - artwork.centreXMm;
  const dy = yMm - artwork.centreYMm;
  const u = Math.min(1, Math.max(-1, (dx * cos + dy * sin) / (widthMm * justWithin))) * widthMm * justWithin;
  const v =
    Math.min(1, Math.max(-1, (dy * cos - dx * sin) / (heightMm * justWithin))) * heightMm * justWithin;
  return { xMm: artwork.centreXMm + u * cos - v * sin, yMm: artwork.centreYMm + u * sin + v * cos };
}

/** Whether any of the artwork lies on the face: the area of the clipped polygon, share of the face, 0..1. */
export function shareOfFaceCovered(outline: FlatOutline, artwork: ArtworkPlacement): number {
  const face = outlinePolygon(outline, 64);
  const { cos, sin } = cosSin(artwork.rotationDegrees);
  let polygon: PointMm[] = face.map(({ xMm, yMm }) => {
    const dx = xMm - artwork.centreXMm;
    const dy = yMm - artwork.centreYMm;
    return { xMm: (dx * cos + dy * sin) / artwork.widthMm, yMm: (dy * cos - dx * sin) / artwork.heightMm };
  });
  const whole = area(polygon);
  // In the artwork's own frame it is the unit square: four cuts (Sutherland & Hodgman, CACM 17(1), 1974).
  for (const keep of [
    (p: PointMm) => 0.5 - p.xMm,
    (p: PointMm) => 0.5 + p.xMm,
    (p: PointMm) => 0.5 - p.yMm,
    (p: PointMm) => 0.5 + p.yMm,
  ]) {
    polygon = cut(polygon, keep);
  }
  return area(polygon) / whole;
}

interface Ray {
  readonly xMm: number;
  readonly yMm: number;
  readonly dx: number;
  readonly dy: number;
  readonly side: Side;
}

function bleedRays(outline: FlatOutline, bleedMm: number): Ray[] {
  const { widthMm, heightMm, form } = grownOutline(outline, bleedMm);
  const a = widthMm / 2;
  const b = heightMm / 2;
  if (form === 'ellipse') {
    return Array.from({ length: 4 * raysPerSide }, (_, i) => {
      const angle = (i * Math.PI) / (2 * raysPerSide);
      const xMm = a * Math.cos(angle);
      const yMm = b * Math.sin(angle);
      const slope = Math.hypot(xMm / (a * a), yMm / (b * b));
      const dx = -xMm / (a * a) / slope;
      const dy = -yMm / (b * b) / slope;
      const across = Math.abs(dx) >= Math.abs(dy);
      const side = across ? (dx > 0 ? 'left' : 'right') : dy > 0 ? 'top' : 'bottom';
      return { xMm, yMm, dx, dy, side };
    });
  }
  return Array.from({ length: raysPerSide + 1 }, (_, i) => i / raysPerSide).flatMap((t): Ray[] => {
    const x = (2 * t - 1) * a;
    const y = (2 * t - 1) * b;
    return [
      { xMm: -a, yMm: y, dx: 1, dy: 0, side: 'left' },
      { xMm: a, yMm: y, dx: -1, dy: 0, side: 'right' },
      { xMm: x, yMm: -b, dx: 0, dy: 1, side: 'top' },
      { xMm: x, yMm: b, dx: 0, dy: -1, side: 'bottom' },
    ];
  });
}

/** Way along a ray until it enters the artwork, 0 when it starts inside, null when it never does. */
function depthToArtwork(
  artwork: ArtworkPlacement,
  xMm: number,
  yMm: number,
  dx: number,
  dy: number,
): number | null {
  const { cos, sin } = cosSin(artwork.rotationDegrees);
  const px = xMm - artwork.centreXMm;
  const py = yMm - artwork.centreYMm;
  const along = slab(px * cos + py * sin, dx * cos + dy * sin, artwork.widthMm / 2);
  const across = slab(py * cos - px * sin, dy * cos - dx * sin, artwork.heightMm / 2);
  if (along === null || across === null) return null;
  const enter = Math.max(along[0], across[0]);
  const leave = Math.min(along[1], across[1]);
  return enter > leave || leave < 0 ? null : Math.max(0, enter);
}

/** Rounding play, mm: an artwork that exactly meets the edge counts as meeting it. */
const playMm = 1e-6;

function slab(start: number, direction: number, half: number): readonly [number, number] | null {
  if (Math.abs(direction) < 1e-12) {
    return Math.abs(start) <= half + playMm ? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] : null;
  }
  const one = (-half - start) / direction;
  const other = (half - start) / direction;
  return one < other ? [one, other] : [other, one];
}

function cut(polygon: readonly PointMm[], keep: (p: PointMm) => number): PointMm[] {
  return polygon.flatMap((p, i) => {
    const q = polygon[(i + 1) % polygon.length]!;
    const kp = keep(p);
    const kq = keep(q);
    const out: PointMm[] = kp >= 0 ? [p] : [];
    if (kp >= 0 !== kq >= 0) {
      const t = kp / (kp - kq);
      out.push({ xMm: p.xMm + t * (q.xMm - p.xMm), yMm: p.yMm + t * (q.yMm - p.yMm) });
    }
    return out;
  });
}

function area(polygon: readonly PointMm[]): number {
  let sum = 0;
  polygon.forEach((p, i) => {
    const q = polygon[(i + 1) % polygon.length]!;
    sum += p.xMm * q.yMm - q.xMm * p.yMm;
  });
  return Math.abs(sum) / 2;
}
