import { within } from './check.js';

/** Pressure on what the platen touches. A blank larger than the platen is pressed only under it. */
export function pressurePascal(newtons: number, blankAreaCm2: number, platenAreaCm2?: number): number {
  return newtons / (touchedCm2(blankAreaCm2, platenAreaCm2) * 1e-4);
}

/** Force for a pressure on the blank. */
export function newtonsFor(pascal: number, blankAreaCm2: number, platenAreaCm2?: number): number {
  within('The pressure', pascal, 0, 1e8, 'Pa');
  return pascal * touchedCm2(blankAreaCm2, platenAreaCm2) * 1e-4;
}

function touchedCm2(blankAreaCm2: number, platenAreaCm2 = Number.POSITIVE_INFINITY): number {
  within('The area of the blank', blankAreaCm2, 0.1, 1e6, 'cm²');
  if (platenAreaCm2 !== Number.POSITIVE_INFINITY)
    within('The area of the platen', platenAreaCm2, 0.1, 1e6, 'cm²');
  return Math.min(blankAreaCm2, platenAreaCm2);
}
