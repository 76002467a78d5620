import type { Material } from './types.js';

const guideA = 'CIBSE Guide A, tables of thermal properties';
const handbook = 'usual handbook figures, from memory';

/**
 * Emissivities are usual handbook figures from memory throughout (dull and dark surfaces 0.85 to 0.95, bare metals low);
 * the basis given is that of conductivity, density and heat capacity.
 */
function material(
  id: string,
  name: string,
  [conductivityWPerMK, densityKgPerM3, heatCapacityJPerKgK]: readonly [number, number, number],
  emissivity: number,
  basis: Material['basis'],
  source: string,
): Material {
  return { id, name, conductivityWPerMK, densityKgPerM3, heatCapacityJPerKgK, emissivity, basis, source };
}

/** Room-temperature figures; real pieces differ by make, so uncertainty is sampled where it matters. */
export const materials = {
  'glazed-ceramic': material('glazed-ceramic', 'Glazed ceramic', [1.4, 2500, 840], 0.9, 'published', guideA),
  'soda-lime-glass': material(
    'soda-lime-glass',
    'Soda-lime glass',
    [1.05, 2500, 840],
    0.9,
    'published',
    guideA,
  ),
  aluminium: material('aluminium', 'Aluminium', [230, 2700, 880], 0.1, 'published', guideA),
  'stainless-steel': material(
    'stainless-steel',
    'Stainless steel',
    [16, 8000, 480],
    0.2,
    'published',
    guideA,
  ),
  hardboard: material('hardboard', 'Hardboard', [0.094, 640, 1170], 0.9, 'published', guideA),
  porcelain: material('porcelain', 'Porcelain', [1.5, 2400, 1000], 0.9, 'memory', handbook),
  slate: material('slate', 'Slate', [2.0, 2750, 760], 0.9, 'memory', handbook),
  mdf: material('mdf', 'MDF', [0.14, 750, 1700], 0.9, 'memory', handbook),
  polyester: material('polyester', 'Polyester (PET), solid', [0.2, 1380, 1170], 0.9, 'memory', handbook),
  'polyester-cloth': material(
    'polyester-cloth',
    'Polyester cloth, pressed',
    [0.08, 600, 1170],
    0.9,
    'guess',
    'between solid polyester and loose cotton',
  ),
  cotton: material('cotton', 'Cotton, loose', [0.06, 80, 1300], 0.9, 'memory', handbook),
  paper: material('paper', 'Paper', [0.18, 930, 1340], 0.9, 'memory', handbook),
  silicone: material('silicone', 'Silicone rubber, solid', [0.35, 1200, 1300], 0.9, 'memory', handbook),
  'silicone-sponge': material(
    'silicone-sponge',
    'Silicone sponge',
    [0.1, 400, 1300],
    0.9,
    'guess',
    'a third of solid silicone',
  ),
  ptfe: material('ptfe', 'PTFE sheet', [0.35, 2200, 1050], 0.9, 'memory', handbook),
} as const satisfies Record<string, Material>;

export type MaterialId = keyof typeof materials;
