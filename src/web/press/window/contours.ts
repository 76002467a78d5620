import { contours } from 'd3-contour';
import type { WindowFieldFacts } from '#contract';

/** Shares of the likely worlds in which all is well: hardly, as likely as not, nine in ten. */
export const shareLevels = [0.1, 0.5, 0.9] as const;

export interface ContourArea {
  readonly level: number;
  /** SVG path of everywhere at or above the level, in pixels. */
  readonly path: string;
}

/**
 * Areas of the field at or above each level, as paths. Marching squares count in nodes, the centre of the first at one
 * half; `place` takes seconds and °C to pixels. Round the outside the field is taken as going on as it is at its edge.
 */
export function contourAreas(
  field: WindowFieldFacts,
  place: (seconds: number, platenC: number) => readonly [number, number],
  levels: readonly number[] = shareLevels,
): ContourArea[] {
  const [width, height] = [field.dwellSeconds.length, field.platenC.length];
  if (width < 2 || height < 2) return [];
  const lines = contours().size([width, height]);
  const values = field.within.map((value) => (Number.isFinite(value) ? value : 0));
  return levels.map((level) => ({
    level,
    path: lines
      .contour(values, level)
      .coordinates.flatMap((polygon) => polygon.map((ring) => ringPath(ring, field, place)))
      .join(''),
  }));
}

function ringPath(
  ring: readonly (readonly number[])[],
  field: WindowFieldFacts,
  place: (seconds: number, platenC: number) => readonly [number, number],
): string {
  const points = ring.map(([i = 0, j = 0]) => {
    const [x, y] = place(onAxis(field.dwellSeconds, i - 0.5), onAxis(field.platenC, j - 0.5));
    return `${x.toFixed(1)} ${y.toFixed(1)}`;
  });
  return points.length === 0 ? '' : `M${points.join('L')}Z`;
}

/** Value at a place between nodes; held at the ends. */
export function onAxis(axis: readonly number[], at: number): number {
  const last = axis.length - 1;
  const held = Math.min(last, Math.max(0, at));
  const i = Math.min(Math.floor(held), Math.max(0, last - 1));
  const [a = 0, b = a] = [axis[i], axis[i + 1]];
  return a + (held - i) * (b - a);
}
