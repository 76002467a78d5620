import { within } from './check.js';

export type BrittleMaterial = 'glass' | 'ceramic' | 'slate';

/**
 * Stiffness and the tension at which care begins. Elastic moduli are usual handbook figures from memory. Care begins at a
 * quarter to a third of usual bending strengths (annealed glass 30 to 45, glazed tile 25 to 40, slate 40 to 60 MPa, from
 * memory): scratches and edges weaken each piece differently, and heat adds its own tension.
 */
const brittle: Record<BrittleMaterial, { readonly modulusGPa: number; readonly careMPa: number }> = {
  glass: { modulusGPa: 70, careMPa: 8 },
  ceramic: { modulusGPa: 60, careMPa: 8 },
  slate: { modulusGPa: 80, careMPa: 10 },
};

export interface BrittleCaution {
  /** Tension in a piece of this bow pressed flat, MPa. */
  readonly flatteningMPa: number;
  readonly careFromMPa: number;
  readonly takeCare: boolean;
  readonly text: string;
  readonly basis: string;
}

/**
 * Tension on the outer face when a bowed piece is forced flat: a bow w over a length L is an arc of curvature 8w/L², and
 * bending it away strains the face by half the thickness times that: σ = E t/2 · 8w/L² = 4 E t w/L² (Euler–Bernoulli
 * bending; Timoshenko, Strength of Materials). Even pressure on a flat, padded piece hardly strains it: brittle pieces
 * break of bow, grit and edges, not of pressure as such, so no limit of pressure is given here but the maker's.
 */
export function brittleCaution(
  material: BrittleMaterial,
  piece: { readonly thicknessMm: number; readonly lengthMm: number; readonly bowMm: number },
): BrittleCaution {
  within('The thickness', piece.thicknessMm, 0.1, 100, 'mm');
  within('The length', piece.lengthMm, 5, 5000, 'mm');
  within('The bow', piece.bowMm, 0, piece.lengthMm / 10, 'mm');
  const { modulusGPa, careMPa } = brittle[material];
  const flatteningMPa = (4 * modulusGPa * 1000 * piece.thicknessMm * piece.bowMm) / piece.lengthMm ** 2;
  const takeCare = flatteningMPa > careMPa;
  return {
    flatteningMPa,
    careFromMPa: careMPa,
    takeCare,
    text: takeCare
      ? `Pressed flat, this piece would be strained by its bow alone to where ${material} may break. Press it lightly on a soft pad, never between hard faces, and wear eye protection. The maker’s pressure comes first.`
      : `Press on a soft pad, with no grit under the piece and the pressure even; close gently and let it cool slowly. Wear eye protection: ${material} can burst. The maker’s pressure comes first.`,
    basis:
      'Bending of a bowed piece, by beam theory; strengths are usual handbook figures from memory. No published limit of pressure for sublimation blanks was found.',
  };
}
