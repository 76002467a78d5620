import type { ShellGeometry } from './geometry.js';
import type { HeatLayer } from './types.js';

/** Cells of one layer from its upper face inwards, per m² of the reference face. */
export interface LayerMesh {
  readonly layer: HeatLayer;
  /** J/(m²K). */
  readonly capacities: Float64Array;
  /** m²K/W from the middle of each cell to its upper and lower face. */
  readonly upperHalf: Float64Array;
  readonly lowerHalf: Float64Array;
  /** Depth of each cell's middle within the layer, 0..1. */
  readonly middles: Float64Array;
  readonly upperArea: number;
  readonly lowerArea: number;
}

/** How strongly cells crowd towards the faces, where temperatures change first; 0 would be even. */
const crowding = 0.8;

export function meshLayer(
  layer: HeatLayer,
  shells: ShellGeometry,
  outerM: number,
  innerM: number,
  factor: number,
): LayerMesh {
  const { conductivityWPerMK: k, densityKgPerM3, heatCapacityJPerKgK } = layer.material;
  const volumetric = densityKgPerM3 * heatCapacityJPerKgK;
  const count = layer.lumped ? 1 : Math.max(1, Math.round((layer.cells ?? usualCells(layer)) * factor));
  const face = (j: number): number => {
    if (j === 0) return outerM;
    if (j === count) return innerM;
    const u = j / count;
    // A smooth map keeps finite volumes of second order on uneven cells.
    const s = count < 4 ? u : u - (crowding * Math.sin(2 * Math.PI * u)) / (2 * Math.PI);
    return outerM + (innerM - outerM) * s;
  };
  const capacities = new Float64Array(count);
  const upperHalf = new Float64Array(count);
  const lowerHalf = new Float64Array(count);
  const middles = new Float64Array(count);
  for (let j = 0; j < count; j += 1) {
    const outer = face(j);
    const inner = face(j + 1);
    const middle = (outer + inner) / 2;
    capacities[j] = volumetric * shells.volume(outer, inner);
    upperHalf[j] = layer.lumped ? 0 : shells.resistance(outer, middle, k);
    lowerHalf[j] = layer.lumped ? 0 : shells.resistance(middle, inner, k);
    middles[j] = (outerM - middle) / (outerM - innerM);
  }
  return {
    layer,
    capacities,
    upperHalf,
    lowerHalf,
    middles,
    upperArea: shells.area(outerM),
    lowerArea: shells.area(innerM),
  };
}

/** Enough that halving the cells moves press temperatures by less than 0.1 K (tested in order.test.ts). */
function usualCells(layer: HeatLayer): number {
  return Math.min(60, Math.round(5 + 8 * Math.sqrt(layer.thicknessMm)));
}
