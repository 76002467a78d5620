import type { Blank } from '#contract';
import { type LengthUnit, lengthText, sizeText } from './figures.js';

export const materialNames: Record<Blank['material'], string> = {
  ceramic: 'Ceramic',
  glass: 'Glass',
  slate: 'Slate',
  metal: 'Metal',
  'wood-board': 'Wood board',
  plastic: 'Plastic',
  textile: 'Cloth',
  other: 'Other',
};

export const pressureNames = { light: 'Light', medium: 'Medium', firm: 'Firm' } as const;

/** Size in words: the face, or for a cylinder its diameter and height. */
export function blankSizeText(shape: Blank['shape'], unit: LengthUnit): string {
  if (shape.kind === 'cylinder')
    return `⌀ ${lengthText(shape.diameterMm, unit)}, ${lengthText(shape.heightMm, unit)} high`;
  if (shape.kind === 'ellipse' && shape.widthMm === shape.heightMm)
    return `⌀ ${lengthText(shape.widthMm, unit)}`;
  return sizeText(shape.widthMm, shape.heightMm, unit);
}

/** Cloth blanks are prints for something larger; the name says for what. Only for drawing them. */
export const isShirt = (name: string): boolean => /shirt|\btee\b|jersey|vest/i.test(name);
export const isBag = (name: string): boolean => /\bbag\b|tote/i.test(name);
export const isCushion = (name: string): boolean => /cushion|pillow/i.test(name);
