import type { Blank } from '#contract';
import { type Material, type MaterialId, materials } from '#craft/heat';

/** What a blank is made of and how thick it is, as far as its record tells. */
export interface Body {
  readonly material: Material;
  readonly thicknessMm: number;
  /** Standard deviation of the logarithm of the thickness: 0 where somebody measured it. */
  readonly thicknessLog: number;
  /** Null: the blank itself takes the dye. */
  readonly coatingMm: number | null;
  /** 'aluminium, 1 mm thick (usual for its kind, from memory: measure yours)' */
  readonly words: string;
}

interface Usual {
  readonly material: MaterialId;
  readonly thicknessMm: number;
  /** What pieces of the kind run to, as the trade sells them: common practice, from memory. */
  readonly rangeMm: readonly [number, number];
  readonly note?: string;
}

/**
 * Usual bodies by kind of material: thicknesses are common practice of the trade, from memory (mug walls about 4 mm, tiles
 * 6, slate 6 to 8, aluminium sheet 0.6 to 1.1, hardboard 3, glass 4, shirt cloth pressed 0.3). A blank's record does not
 * say how thick it is, so the thickness is drawn with the rest that is not known unless the question gives it.
 */
const flat: Record<Blank['material'], Usual> = {
  ceramic: { material: 'glazed-ceramic', thicknessMm: 6, rangeMm: [5, 8] },
  glass: { material: 'soda-lime-glass', thicknessMm: 4, rangeMm: [3, 6] },
  slate: { material: 'slate', thicknessMm: 7, rangeMm: [5, 10] },
  metal: { material: 'aluminium', thicknessMm: 0.8, rangeMm: [0.5, 1.2] },
  'wood-board': { material: 'hardboard', thicknessMm: 3, rangeMm: [2.5, 4] },
  plastic: { material: 'polyester', thicknessMm: 2, rangeMm: [1, 3], note: 'taken as solid polyester' },
  textile: { material: 'polyester-cloth', thicknessMm: 0.3, rangeMm: [0.2, 0.5] },
  other: {
    material: 'polyester',
    thicknessMm: 2,
    rangeMm: [1, 4],
    note: 'nobody said of what: taken as plastic',
  },
};

const round: Partial<Record<Blank['material'], Usual>> = {
  ceramic: { material: 'glazed-ceramic', thicknessMm: 4, rangeMm: [3, 5] },
  glass: { material: 'soda-lime-glass', thicknessMm: 3, rangeMm: [2, 4] },
  metal: {
    material: 'stainless-steel',
    thicknessMm: 0.5,
    rangeMm: [0.4, 0.8],
    note: 'a single wall of stainless steel; with a double wall, its outer one',
  },
};

/** From memory: clear coats on blanks are put at 15 to 40 µm. */
const usualCoatingMm = 0.025;

export function usualBody(blank: Blank, thicknessMm?: number): Body {
  const usual = (blank.shape.kind === 'cylinder' ? round[blank.material] : undefined) ?? flat[blank.material];
  const material = materials[usual.material];
  const coatingMm = blank.coating.kind === 'polymer' ? usualCoatingMm : null;
  const note = usual.note === undefined ? '' : `; ${usual.note}`;
  const mm = thicknessMm ?? usual.thicknessMm;
  return {
    material,
    thicknessMm: mm,
    // The range taken as nine in ten.
    thicknessLog: thicknessMm === undefined ? Math.log(usual.rangeMm[1] / usual.rangeMm[0]) / 3.29 : 0,
    coatingMm,
    words:
      thicknessMm === undefined
        ? `${material.name}, ${mm} mm thick (usual for its kind, ${usual.rangeMm[0]} to ${usual.rangeMm[1]} mm, common practice${note}; measure yours)`
        : `${material.name}, ${mm} mm thick as given${note}`,
  };
}

/** What its body takes up, J/(m²K). */
export const warmthJPerM2K = ({ material, thicknessMm }: Body): number =>
  (material.densityKgPerM3 * material.heatCapacityJPerKgK * thicknessMm) / 1000;
