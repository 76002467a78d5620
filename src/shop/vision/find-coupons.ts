import { type FoundMarker, mapPoint, type Point, poseOfSheet, type SheetPose } from '#craft/reading';
import { cornerMarkerIds } from '#craft/sheet';
import { type CouponCode, type CouponLayout, couponLayout, readCouponCode } from '#craft/testsheet';
import { findMarkers, onFullPicture } from './find-markers.js';
import type { GreySource } from './grey.js';
import type { OpenCv } from './open-cv.js';
import { readBeside } from './read-code.js';

export interface FoundCoupon {
  readonly pose: SheetPose;
  readonly layout: CouponLayout;
  /** Null when its square code could not be read. */
  readonly code: CouponCode | null;
}

export interface CouponFinding {
  /** From top to bottom of the picture, roughly. */
  readonly coupons: readonly FoundCoupon[];
  /** Markers that belong to no coupon: cut off, or of a sheet. */
  readonly strayMarkers: number;
  /** No code could be read and nobody said how large the coupons are. */
  readonly isSizeUnknown: boolean;
}

/** Long sides of the picture looked at in turn; the second only when something was left open. */
const longSides = [1600, 2800] as const;
/** Markers of a coupon place its middle within so much of its side of one another. */
const together = 0.3;
/** With one marker alone nothing tells whether the coupon lies flat. */
const leastMarkers = 2;

interface Seen {
  readonly marker: FoundMarker;
  readonly mirrored: boolean;
}

/**
 * All coupons in a picture, lying anyhow. Their own codes say how large they are; each marker then says where its
 * coupon's middle is, and those that say the same belong together.
 *
 * @param known the size and material of coupons, when the shop knows
 */
export function findCoupons(
  cv: OpenCv,
  full: GreySource,
  known: Pick<CouponCode, 'widthMm' | 'heightMm' | 'material'> | null,
): CouponFinding {
  const longSide = Math.max(full.width, full.height);
  const factors = new Set(longSides.map((side) => Math.max(1, Math.ceil(longSide / side))));
  let seen: Seen[] = [];
  const codes = new Map<Seen, CouponCode>();
  let best: CouponFinding = { coupons: [], strayMarkers: 0, isSizeUnknown: true };
  for (const factor of factors) {
    const found = findMarkers(cv, full.shrunk(factor), 'thorough');
    const more = [
      ...onFullPicture(full, found.plain, factor).map((marker) => ({ marker, mirrored: false })),
      ...onFullPicture(full, found.mirrored, factor).map((marker) => ({ marker, mirrored: true })),
    ].filter((one) => !seen.some((other) => areSame(one, other)));
    seen = [...seen, ...more];
    for (const one of more) {
      if (one.marker.id !== cornerMarkerIds.topLeft) continue;
      const code = readBeside(full, one.marker, readCouponCode);
      if (code) codes.set(one, code);
    }
    best = gathered(seen, codes, known);
    const isWhole = best.coupons.every(({ pose, code }) => code && pose.markersUsed.length === 4);
    if (best.coupons.length > 0 && isWhole && best.strayMarkers === 0) break;
  }
  return best;
}

function gathered(
  seen: readonly Seen[],
  codes: ReadonlyMap<Seen, CouponCode>,
  known: Pick<CouponCode, 'widthMm' | 'heightMm' | 'material'> | null,
): CouponFinding {
  const kinds = new Map<string, CouponLayout>();
  for (const { widthMm, heightMm, material } of [...(known ? [known] : []), ...codes.values()]) {
    const layout = couponLayout(widthMm, heightMm, material);
    if (layout) kinds.set(`${widthMm} ${heightMm} ${material}`, layout);
  }
  let left = [...seen];
  const coupons: FoundCoupon[] = [];
  for (const layout of kinds.values()) {
    for (const group of groupsOf(left, layout)) {
      const anchor = group.find((one) => isOf(codes.get(one), layout));
      const { frame } = layout;
      const markers = group.map(({ marker }) => marker);
      const pose = poseOfSheet(frame, markers, anchor?.marker);
      if (!pose || pose.markersUsed.length < leastMarkers || pose.seenMirrored !== group[0]!.mirrored)
        continue;
      // A code read at its corner says otherwise: these are another kind's markers.
      if (!anchor && group.some((one) => codes.has(one))) continue;
      coupons.push({ pose, layout, code: anchor ? codes.get(anchor)! : null });
      left = left.filter((one) => !group.includes(one));
    }
  }
  const topOf = ({ pose, layout }: FoundCoupon): Point =>
    mapPoint(pose.toPicture, { x: layout.widthMm / 2, y: layout.heightMm / 2 });
  coupons.sort((a, b) => topOf(a).y - topOf(b).y || topOf(a).x - topOf(b).x);
  return { coupons, strayMarkers: left.length, isSizeUnknown: kinds.size === 0 };
}

/** Markers whose coupon would have its middle at the same place, seen from the same side. */
function groupsOf(seen: readonly Seen[], layout: CouponLayout): Seen[][] {
  const groups: { members: Seen[]; middle: Point; side: number }[] = [];
  for (const one of seen) {
    const said = middleBy(one.marker, layout);
    if (!said) continue;
    const near = groups
      .filter(({ members }) => members[0]!.mirrored === one.mirrored)
      .map((group) => ({ group, off: Math.hypot(group.middle.x - said.x, group.middle.y - said.y) }))
      .filter(({ group, off }) => off < together * Math.min(group.side, said.side))
      .sort((a, b) => a.off - b.off)[0]?.group;
    if (!near) {
      groups.push({ members: [one], middle: said, side: said.side });
      continue;
    }
    near.members.push(one);
    const n = near.members.length;
    near.middle = {
      x: near.middle.x + (said.x - near.middle.x) / n,
      y: near.middle.y + (said.y - near.middle.y) / n,
    };
  }
  return groups.map(({ members }) => members);
}

/** Where a marker alone puts its coupon's middle, and the coupon's shorter side in pixels. */
function middleBy({ id, corners }: FoundMarker, layout: CouponLayout): (Point & { side: number }) | null {
  const place = layout.frame.markers.find((marker) => marker.id === id)?.rect;
  if (!place) return null;
  const { xMm, yMm, widthMm: side } = place;
  // Without perspective: a marker is too small to tell of it.
  const [a, b, c, d] = corners as [Point, Point, Point, Point];
  const centre = { x: (a.x + b.x + c.x + d.x) / 4, y: (a.y + b.y + c.y + d.y) / 4 };
  const across = { x: (b.x + c.x - a.x - d.x) / (2 * side), y: (b.y + c.y - a.y - d.y) / (2 * side) };
  const down = { x: (c.x + d.x - a.x - b.x) / (2 * side), y: (c.y + d.y - a.y - b.y) / (2 * side) };
  const u = layout.widthMm / 2 - (xMm + side / 2);
  const v = layout.heightMm / 2 - (yMm + side / 2);
  return {
    x: centre.x + u * across.x + v * down.x,
    y: centre.y + u * across.y + v * down.y,
    side: Math.min(layout.widthMm, layout.heightMm) * Math.hypot(across.x, across.y),
  };
}

const isOf = (code: CouponCode | undefined, { widthMm, heightMm, material }: CouponLayout): boolean =>
  code !== undefined && code.widthMm === widthMm && code.heightMm === heightMm && code.material === material;

function areSame(one: Seen, other: Seen): boolean {
  if (one.marker.id !== other.marker.id || one.mirrored !== other.mirrored) return false;
  const [a, b] = [one.marker.corners[0]!, one.marker.corners[1]!];
  const c = other.marker.corners[0]!;
  return Math.hypot(a.x - c.x, a.y - c.y) < Math.hypot(a.x - b.x, a.y - b.y) / 2;
}
