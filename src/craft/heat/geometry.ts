import type { Geometry, HeatLayer } from './types.js';

/**
 * Areas, volumes and resistances of shells between two radii, all per m² of the reference face. On a plane a radius
 * is a height and only differences count. Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, table 3.3
 * (one-dimensional conduction in plane wall, cylinder and sphere).
 */
export interface ShellGeometry {
  /** Radius (height) of the upper face of each layer and, last, of the innermost lower face, m. */
  readonly radiiM: readonly number[];
  area(radiusM: number): number;
  volume(outerM: number, innerM: number): number;
  /** m²K/W between two radii. */
  resistance(outerM: number, innerM: number, conductivityWPerMK: number): number;
}

export function shellGeometry(geometry: Geometry, layers: readonly HeatLayer[]): ShellGeometry {
  const depths = [0];
  for (const layer of layers) depths.push(depths.at(-1)! + layer.thicknessMm / 1000);
  if (geometry.kind === 'plane')
    return {
      radiiM: depths.map((depth) => -depth),
      area: () => 1,
      volume: (outer, inner) => outer - inner,
      resistance: (outer, inner, k) => (outer - inner) / k,
    };
  const reference = geometry.radiusMm / 1000;
  const at = depths[layers.findIndex((layer) => layer.id === geometry.ofLayer)]!;
  const innermost = reference + at - depths.at(-1)!;
  // A solid rod or ball: what is left of the centre by rounding is nothing.
  const radiiM = depths.map((depth) => reference + at - depth);
  if (Math.abs(innermost) < 1e-9 * reference) radiiM[radiiM.length - 1] = 0;
  if (geometry.kind === 'cylinder')
    return {
      radiiM,
      area: (radius) => radius / reference,
      volume: (outer, inner) => (outer * outer - inner * inner) / (2 * reference),
      resistance: (outer, inner, k) => (reference * Math.log(outer / inner)) / k,
    };
  return {
    radiiM,
    area: (radius) => (radius / reference) ** 2,
    volume: (outer, inner) => (outer ** 3 - inner ** 3) / (3 * reference ** 2),
    resistance: (outer, inner, k) => (reference ** 2 * (1 / inner - 1 / outer)) / k,
  };
}
