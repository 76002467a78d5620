import type { Material } from './types.js';

/** e = √(kρc), W·s½/(m²K): how strongly a thick body holds its own temperature when touched. */
export const effusivity = (material: Material): number =>
  Math.sqrt(material.conductivityWPerMK * material.densityKgPerM3 * material.heatCapacityJPerKgK);

/**
 * The temperature two thick bodies take where they touch, at once and for as long as neither far side notices:
 * (e₁T₁ + e₂T₂)/(e₁ + e₂) (Incropera & DeWitt, eq. 5.63).
 */
export function contactC(first: Material, firstC: number, second: Material, secondC: number): number {
  const [a, b] = [effusivity(first), effusivity(second)];
  return (a * firstC + b * secondC) / (a + b);
}
