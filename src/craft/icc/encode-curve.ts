import type { ByteWriter } from './byte-writer.js';
import { clipUnit } from './clip.js';
import { curveFunction } from './curve.js';
import type { IccCurve } from './types.js';

/** curveType, or parametricCurveType where allowed (ICC.1:2022 10.6, 10.18). */
export function encodeCurve(out: ByteWriter, curve: IccCurve, parametric: boolean): void {
  if (curve.kind === 'parametric' && parametric) {
    out.signature('para');
    out.u32(0);
    out.u16(curve.functionType, 0);
    out.s15f16(...curve.parameters);
    return;
  }
  out.signature('curv');
  out.u32(0);
  const gamma = curve.kind === 'parametric' && curve.functionType === 0 ? curve.parameters[0] : undefined;
  if (gamma === 1) {
    out.u32(0);
    return;
  }
  // u8Fixed8 holds this gamma exactly (as it does 563/256).
  if (gamma !== undefined && Number.isInteger(gamma * 256)) {
    out.u32(1);
    out.u16(gamma * 256);
    return;
  }
  const values = curve.kind === 'sampled' ? curve.values : sample(curve);
  out.u32(values.length);
  for (const v of values) out.u16(Math.round(65535 * clipUnit(v)));
}

function sample(curve: IccCurve): Float64Array {
  const f = curveFunction(curve);
  return Float64Array.from({ length: 4096 }, (_, i) => f(i / 4095));
}
