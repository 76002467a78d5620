import { Problem } from '#craft/problem';
import type { BlankShape } from './types.js';

/** Narrowest face worth pressing; below it no picture and no lift-off tape finds room. */
const leastFaceMm = 5;
const mostFaceMm = 6000;

/**
 * Refuse shapes that cannot be: sizes out of bounds, corners rounder than the face, a gap wider than the wrap.
 *
 * @throws Problem `blank.invalid`, `where` naming the field.
 */
export function checkShape(shape: BlankShape): void {
  if (shape.kind === 'cylinder') {
    demandSize(shape.diameterMm, 'diameter', 'shape.diameterMm');
    demandSize(shape.heightMm, 'height', 'shape.heightMm');
    if (!(shape.gapMm >= 0)) {
      throw invalid(
        'The gap at the handle or seam is less than nothing.',
        'Give the gap as 0 mm or more.',
        'shape.gapMm',
      );
    }
    const girthMm = Math.PI * shape.diameterMm;
    if (girthMm - shape.gapMm < leastFaceMm) {
      throw invalid(
        `A gap of ${shape.gapMm} mm leaves no room for a picture: the cylinder is only ${girthMm.toFixed(1)} mm round.`,
        'Measure the gap again, or the diameter.',
        'shape.gapMm',
      );
    }
    return;
  }
  demandSize(shape.widthMm, 'width', 'shape.widthMm');
  demandSize(shape.heightMm, 'height', 'shape.heightMm');
  if (shape.kind === 'rectangle') {
    const mostRadiusMm = Math.min(shape.widthMm, shape.heightMm) / 2;
    if (!(shape.cornerRadiusMm >= 0 && shape.cornerRadiusMm <= mostRadiusMm)) {
      throw invalid(
        `Corners of ${shape.cornerRadiusMm} mm radius do not fit a face of ${shape.widthMm} × ${shape.heightMm} mm.`,
        `Give a corner radius from 0 to ${mostRadiusMm} mm.`,
        'shape.cornerRadiusMm',
      );
    }
  }
}

function demandSize(valueMm: number, name: string, where: string): void {
  if (!(valueMm >= leastFaceMm && valueMm <= mostFaceMm)) {
    throw invalid(
      `The ${name} of the blank is ${valueMm} mm.`,
      `Give a ${name} from ${leastFaceMm} to ${mostFaceMm} mm.`,
      where,
    );
  }
}

function invalid(message: string, remedy: string, where: string): Problem {
  return new Problem('blank.invalid', message, { remedy, where });
}
