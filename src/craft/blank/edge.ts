import type { FlatOutline } from './types.js';

export interface PointMm {
  readonly xMm: number;
  readonly yMm: number;
}

/** Inside the outline or on its edge. Millimetres from the outline's centre, y down. */
export function insideOutline(outline: FlatOutline, xMm: number, yMm: number): boolean {
  if (outline.form === 'ellipse') {
    return ((2 * xMm) / outline.widthMm) ** 2 + ((2 * yMm) / outline.heightMm) ** 2 <= 1;
  }
  return distanceInsideMm(outline, xMm, yMm) >= 0;
}

/**
 * How far a point lies inside the outline, measured to the nearest place of its edge; negative outside.
 * Exact for (rounded) rectangles; for ellipses to rounding, by bisection on the normal's foot
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
  // Far below any length that means something: on the axis, so that nothing is divided by an underflow.
  const nothing = 1e-100;
  if (y < nothing) {
    // On the long axis: the foot leaves the axis when the point lies inside the evolute's cusp.
    const cusp = (a * a - b * b) / a;
    if (x < cusp) {
      const cos = (a * x) / (a * a - b * b);
      return { x: a * cos, y: b * Math.sqrt(Math.max(0, 1 - cos * cos)) };
    }
    return a > b || x >= nothing ? { x: a, y: 0 } : { x: 0, y: b };
  }
  if (x < nothing) return { x: 0, y: b };
  // The root of (a x / (s + a² − b²))² + (b y / s)² = 1, where the left side falls steadily; s is Eberly's t + b²,
  // so that nothing cancels near the long axis.
  const spread = a * a - b * b;
  let low = b * y;
  let high = Math.hypot(a * x, b * y);
  for (;;) {
    const s = (low + high) / 2;
    if (s <= low || s >= high) break;
    if (((a * x) / (s + spread)) ** 2 + ((b * y) / s) ** 2 > 1) low = s;
    else high = s;
  }
  return { x: (a * a * x) / (high + spread), y: (b * b * y) / high };
}
