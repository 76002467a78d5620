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
