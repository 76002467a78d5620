import { Shape } from 'three';

/**
 * A shirt lying flat about its chest print, mm, y up, the print's middle at the origin. A usual medium shirt (common
 * practice: about half a metre across the chest), larger where the print is.
 */
export function shirtOutline(print: { readonly widthMm: number; readonly heightMm: number }): {
  readonly path: Shape;
  /** How far the print's middle lies above the shirt's. */
  readonly printAboveMiddleMm: number;
  readonly reachMm: number;
} {
  const k = Math.max(1, print.widthMm / 340, print.heightMm / 420);
  const collar = print.heightMm / 2 + 85 * k;
  const hem = collar - 690 * k;
  const path = new Shape();
  path.moveTo(-92 * k, collar);
  path.lineTo(-205 * k, collar - 32 * k);
  path.lineTo(-375 * k, collar - 190 * k);
  path.lineTo(-300 * k, collar - 275 * k);
  path.quadraticCurveTo(-262 * k, collar - 235 * k, -255 * k, collar - 225 * k);
  path.quadraticCurveTo(-248 * k, (collar + hem) / 2, -262 * k, hem);
  path.quadraticCurveTo(0, hem - 12 * k, 262 * k, hem);
  path.quadraticCurveTo(248 * k, (collar + hem) / 2, 255 * k, collar - 225 * k);
  path.quadraticCurveTo(262 * k, collar - 235 * k, 300 * k, collar - 275 * k);
  path.lineTo(375 * k, collar - 190 * k);
  path.lineTo(205 * k, collar - 32 * k);
  path.lineTo(92 * k, collar);
  path.quadraticCurveTo(0, collar - 95 * k, -92 * k, collar);
  return { path, printAboveMiddleMm: -(collar + hem) / 2, reachMm: 375 * k };
}
