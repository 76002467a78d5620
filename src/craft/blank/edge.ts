import type { FlatOutline } from './types.js';

export interface PointMm {
  readonly xMm: number;
  readonly yMm: number;
}

/** Inside the outline or on its edge. Millimetres from the outline's centre, y down. */
export function insideOutline(outline: FlatOutline, xMm: number, yMm: number): boolean {
  return distanceInsideMm(outline, xMm, yMm) >= 0;
}

/**
 * How far a point lies inside the outline, measured to the nearest place of its edge; negative outside.
 * Exact for (rounded) rectangles; for ellipses to about 1e-9 of the size, by bisection on the normal's foot
 * (D. Eberly, Distance from a Point to an Ellipse, 2013, section 3).
 */
export function distanceInsideMm(outline: FlatOutline, xMm: number, yMm: number): number {
  const halfWidth = outline.widthMm / 2;
  const halfHeight = outline.heightMm / 2;
  if (outline.form === 'ellipse') {
    return ellipseDistance(halfWidth, halfHeight, Math.abs(xMm), Math.abs(yMm));
  }
  const radius = outline.cornerRadiusMm;
  const dx = Math.abs(xMm) - (halfWidth - radius);
  const dy = Math.abs(yMm) - (halfHeight - radius);
  const outsideCore = Math.hypot(Math.max(dx, 0), Math.max(dy, 0));
  return radius - outsideCore - Math.min(Math.max(dx, dy), 0);
}

/** The outline grown on all sides: what bleed does. Corners keep their centre, ellipses grow by their axes. */
export function grownOutline(outline: FlatOutline, byMm: number): FlatOutline {
  return {
    widthMm: outline.widthMm + 2 * byMm,
    heightMm: outline.heightMm + 2 * byMm,
    form: outline.form,
    cornerRadiusMm: outline.cornerRadiusMm > 0 ? outline.cornerRadiusMm + byMm : 0,
  };
}

/**
 * The outline as a closed polygon, clockwise as seen, starting at the right-hand end of the top edge (rectangle) or at
 * the right (ellipse). Curves are cut into `stepsPerQuarter` chords whose corners lie on the curve.
 */
export function outlinePolygon(outline: FlatOutline, stepsPerQuarter = 32): PointMm[] {
  const halfWidth = outline.widthMm / 2;
  const halfHeight = outline.heightMm / 2;
  if (outline.form === 'ellipse') {
    return arc(0, 0, halfWidth, halfHeight, 0, 4, stepsPerQuarter).slice(0, -1);
  }
  const radius = outline.cornerRadiusMm;
  const x = halfWidth - radius;
  const y = halfHeight - radius;
  if (radius === 0) {
    return [
      { xMm: x, yMm: -y },
      { xMm: x, yMm: y },
      { xMm: -x, yMm: y },
      { xMm: -x, yMm: -y },
    ];
  }
  return [
    ...arc(x, -y, radius, radius, -1, 1, stepsPerQuarter),
    ...arc(x, y, radius, radius, 0, 1, stepsPerQuarter),
    ...arc(-x, y, radius, radius, 1, 1, stepsPerQuarter),
    ...arc(-x, -y, radius, radius, 2, 1, stepsPerQuarter),
  ];
}

function arc(
  cx: number,
  cy: number,
  rx: number,
  ry: number,
  startQuarter: number,
  quarters: number,
  steps: number,
): PointMm[] {
  const points: PointMm[] = [];
  for (let i = 0; i <= quarters * steps; i += 1) {
    const angle = ((startQuarter + i / steps) * Math.PI) / 2;
    points.push({ xMm: cx + rx * Math.cos(angle), yMm: cy + ry * Math.sin(angle) });
  }
  return points;
}

/** Signed distance, positive inside, of a point in the first quadrant to the ellipse with half axes a, b. */
function ellipseDistance(a: number, b: number, x: number, y: number): number {
  if (a < b) return ellipseDistance(b, a, y, x);
  const inside = (x / a) ** 2 + (y / b) ** 2 <= 1;
  const foot = ellipseFoot(a, b, x, y);
  const distance = Math.hypot(x - foot.x, y - foot.y);
  return inside ? distance : -distance;
}

/** Nearest point of the ellipse (a ≥ b) to a point of the first quadrant. */
function ellipseFoot(a: number, b: number, x: number, y: number): { x: number; y: number } {
  if (y <= 0) {
    // On the long axis: the foot leaves the axis when the point lies inside the evolute's cusp.
    const cusp = (a * a - b * b) / a;
    if (x < cusp) {
      const cos = (a * x) / (a * a - b * b);
      return { x: a * cos, y: b * Math.sqrt(Math.max(0, 1 - cos * cos)) };
    }
    return { x: a, y: 0 };
  }
  if (x <= 0) return { x: 0, y: b };
  // Root of (a x / (t + a²))² + (b y / (t + b²))² = 1 for t > −b², where the left side falls steadily.
  let low = -b * b + b * y;
  let high = -b * b + Math.hypot(a * x, b * y);
  for (let i = 0; i < 100 && high - low > 1e-13 * (a * a); i += 1) {
    const t = (low + high) / 2;
    const value = ((a * x) / (t + a * a)) ** 2 + ((b * y) / (t + b * b)) ** 2 - 1;
    if (value > 0) low = t;
    else high = t;
  }
  const t = (low + high) / 2;
  return { x: (a * a * x) / (t + a * a), y: (b * b * y) / (t + b * b) };
}
