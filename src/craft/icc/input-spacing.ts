import { labForward } from '#craft/colour';
import { curveFunction } from './curve.js';
import { findGreyCurve, findShaper, findTable } from './device-side.js';
import type { IccCurve, IccProfile, Intent } from './types.js';

/** Per channel, encoded value → place along the grid; null: even in the encoded value. */
export type InputSpacing = readonly Float32Array[] | null;

/** Four samples to an 8-bit code, and one on every code. */
const samples = 4 * 255 + 1;

/**
 * Spacings worth trying: even steps in the encoded value, and even steps as the source sees them: in lightness for a
 * matrix or grey profile, by its own input curves for tables (its grid points then fall on grid points here).
 */
export function inputSpacings(source: IccProfile, intent: Intent): InputSpacing[] {
  const own = ownCurves(source, intent);
  if (own === null || !own.every(rises) || !own.some(bends)) return [null];
  return [null, own];
}

function ownCurves(source: IccProfile, intent: Intent): Float32Array[] | null {
  const table = findTable(source, 'A2B', intent);
  if (table !== undefined) {
    const first = table.stages.find((stage) => stage.kind !== 'matrix');
    return first?.kind === 'curves' ? first.curves.map((curve) => fill(curveFunction(curve))) : null;
  }
  const grey = findGreyCurve(source);
  const curves: readonly IccCurve[] | undefined = grey === undefined ? findShaper(source)?.curves : [grey];
  if (curves === undefined) return null;
  return curves.map((curve) => {
    const f = curveFunction(curve);
    return fill((v) => 1.16 * labForward(f(v)) - 0.16);
  });
}

/** Stretched to run from 0 to 1 exactly. */
function fill(f: (v: number) => number): Float32Array {
  const raw = Float64Array.from({ length: samples }, (_, i) => f(i / (samples - 1)));
  const low = raw[0]!;
  const span = raw[samples - 1]! - low;
  return Float32Array.from(raw, (v) => (v - low) / span);
}

/** Strictly, and never so flat that a grid point could not be placed. */
function rises(curve: Float32Array): boolean {
  return curve.every((v, i) => Number.isFinite(v) && (i === 0 || v - curve[i - 1]! > 1e-6));
}

function bends(curve: Float32Array): boolean {
  return curve.some((v, i) => Math.abs(v - i / (samples - 1)) > 1e-3);
}
