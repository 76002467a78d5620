import { brokenProfile } from './broken.js';
import type { ByteReader } from './byte-reader.js';
import type { IccCurve } from './types.js';

/** Parameters of each parametric function type, ICC.1:2022 Table 68. */
const parameterCounts = [1, 3, 4, 5, 7] as const;

/** curveType (10.6) or parametricCurveType (10.18) at `at`; also says how many bytes it took. */
export function readCurve(tag: ByteReader, at = 0): { curve: IccCurve; bytes: number } {
  const type = tag.signature(at);
  if (type === 'para') {
    const functionType = tag.u16(at + 8);
    const count = parameterCounts[functionType];
    if (count === undefined)
      throw brokenProfile(`${tag.where} uses an unknown curve function (${functionType})`, tag.where);
    const parameters = Array.from({ length: count }, (_, i) => tag.s15f16(at + 12 + 4 * i));
    return {
      curve: { kind: 'parametric', functionType: functionType as 0 | 1 | 2 | 3 | 4, parameters },
      bytes: 12 + 4 * count,
    };
  }
  if (type !== 'curv') throw brokenProfile(`${tag.where} is no curve`, tag.where);
  const count = tag.u32(at + 8);
  tag.need(at + 12, 2 * count);
  if (count === 0) return { curve: identityCurve, bytes: 12 };
  if (count === 1) return { curve: gammaCurve(tag.u16(at + 12) / 256), bytes: 14 };
  const values = new Float64Array(count);
  for (let i = 0; i < count; i += 1) values[i] = tag.u16(at + 12 + 2 * i) / 65535;
  return { curve: { kind: 'sampled', values }, bytes: 12 + 2 * count };
}

export const gammaCurve = (gamma: number): IccCurve => ({
  kind: 'parametric',
  functionType: 0,
  parameters: [gamma],
});
export const identityCurve: IccCurve = gammaCurve(1);
