import { d50, deltaE00, labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import type { LinearRgb } from '#craft/patchreading';
import { encodeLight } from './encode-light.js';
import { estimateAt, fitLinear, type LinearFit, leftOutLinear, leverage } from './linear-fit.js';
import { conditionProcess, leftOutProcess, processAt } from './process.js';
import { cubeRootTerms, matrixTerms, rootTerms, type Terms } from './terms.js';
import type { MethodName, ProcessParameters } from './types.js';

/** Pairs to learn from; `groups` are those that show the same colour and are left out together. */
export interface Pairs {
  readonly rgb: readonly LinearRgb[];
  readonly lab: readonly Triple[];
  readonly weight: readonly number[];
  readonly groups: readonly (readonly number[])[];
}

/** What is said of a colour: variances hold the doubt of the fit and the scatter of an ordinary pair. */
export interface Said {
  readonly lab: Triple3;
  readonly variance: Triple3;
}

export interface Fitted {
  at(rgb: LinearRgb): Said;
  /** For each pair what the others say of it. */
  leftOut(): readonly Said[];
}

interface LinearMethod {
  readonly terms: Terms;
  readonly constantAt: (terms: number) => number;
  readonly space: 'xyz' | 'lab';
}

const last = (terms: number): number => terms - 1;
const linear: Readonly<Record<Exclude<MethodName, 'process'>, LinearMethod>> = {
  matrix: { terms: matrixTerms, constantAt: last, space: 'xyz' },
  'root-2': { terms: rootTerms(2), constantAt: last, space: 'xyz' },
  'root-3': { terms: rootTerms(3), constantAt: last, space: 'xyz' },
  'cube-root-1': { terms: cubeRootTerms(1), constantAt: () => 0, space: 'lab' },
  'cube-root-2': { terms: cubeRootTerms(2), constantAt: () => 0, space: 'lab' },
  'cube-root-3': { terms: cubeRootTerms(3), constantAt: () => 0, space: 'lab' },
};

/** Terms to be found, so as to ask for enough colours. */
export const termsOf = (method: MethodName): number =>
  method === 'process' ? 10 : linear[method].terms([0.5, 0.5, 0.5]).length;

/** Null when these pairs do not decide the fit. */
export function fitMethod(
  method: MethodName,
  pairs: Pairs,
  ridge: number,
  process: readonly ProcessParameters[] | null,
): Fitted | null {
  if (method !== 'process') return fitPolynomial(linear[method], pairs, ridge);
  return process === null ? null : fitProcess(pairs, process);
}

/** Slope of CIELAB's function: how much an error in XYZ shows. */
const slopeAt = (t: number): number => (t > 216 / 24389 ? 1 / (3 * Math.cbrt(t) ** 2) : 841 / 108);

function fitPolynomial(method: LinearMethod, pairs: Pairs, ridge: number): Fitted | null {
  const rows = pairs.rgb.map(method.terms);
  const targets = pairs.lab.map((lab) => (method.space === 'lab' ? lab : xyzFromLab(lab)));
  const weights = [0, 1, 2].map((j) =>
    pairs.weight.map((w, i) =>
      method.space === 'lab' ? w : w * slopeAt(Math.max(0, targets[i]![j]!) / d50[j]!) ** 2,
    ),
  );
  const fits: LinearFit[] = [];
  for (let j = 0; j < 3; j += 1) {
    const fit = fitLinear(
      rows,
      targets.map((target) => target[j]!),
      weights[j]!,
      ridge,
      method.constantAt(rows[0]!.length),
    );
    if (fit === null) return null;
    fits.push(fit);
  }
  const toLab = (value: Triple3): Triple3 => (method.space === 'lab' ? value : labFromXyz(value));
  const without = fits.map((fit, j) =>
    leftOutLinear(
      fit,
      rows,
      targets.map((target) => target[j]!),
      weights[j]!,
      pairs.groups,
    ),
  );
  const saidLab = pairs.rgb.map((_, i) => toLab([without[0]![i]!, without[1]![i]!, without[2]![i]!]));
  const scatter = [0, 1, 2].map((j) => {
    const squares = saidLab.map((lab, i) => pairs.weight[i]! * (lab[j]! - pairs.lab[i]![j]!) ** 2);
    return squares.reduce((sum, v) => sum + v, 0) / pairs.weight.reduce((sum, v) => sum + v, 0);
  });
  // How far out a colour lies is told by the middle coordinate: that of lightness.
  const far = (row: readonly number[]): number => 1 + leverage(fits[1]!, row) * mean(weights[1]!);
  const ordinary = mean(rows.map(far));
  const varianceOf = (row: readonly number[]): Triple3 =>
    scatter.map((v) => (v * far(row)) / ordinary) as Triple3;
  return {
    at(rgb) {
      const row = method.terms(rgb);
      return {
        lab: toLab(fits.map((fit) => estimateAt(fit, row)) as Triple3),
        variance: varianceOf(row),
      };
    },
    leftOut: () => saidLab.map((lab, i) => ({ lab, variance: varianceOf(rows[i]!) })),
  };
}

export const trendTerms = cubeRootTerms(2);

function fitProcess(pairs: Pairs, parameters: readonly ProcessParameters[]): Fitted {
  const x = pairs.rgb.map(encodeLight);
  const trend = pairs.rgb.map(trendTerms);
  const multiple = pairs.weight.map((w) => 1 / w);
  const coordinates = parameters.map((one, j) =>
    conditionProcess(
      one,
      x,
      trend,
      pairs.lab.map((lab) => lab[j]!),
      multiple,
    ),
  );
  return {
    at(rgb) {
      const place = encodeLight(rgb);
      const row = trendTerms(rgb);
      const said = coordinates.map((process) => processAt(process, place, row));
      return {
        lab: said.map(({ mean: value }) => value) as Triple3,
        variance: said.map(({ variance }, j) => variance + parameters[j]!.noiseSd ** 2) as Triple3,
      };
    },
    leftOut() {
      const out = coordinates.map((process, j) =>
        leftOutProcess(
          process,
          pairs.lab.map((lab) => lab[j]!),
          pairs.groups,
        ),
      );
      return pairs.rgb.map((_, i) => ({
        lab: out.map(({ said }) => said[i]!) as Triple3,
        variance: out.map(({ variance }) => variance[i]!) as Triple3,
      }));
    },
  };
}

/** Distance between what the others say of each pair and what it is, CIEDE2000. */
export const leftOutErrors = (fitted: Fitted, lab: readonly Triple[]): number[] =>
  fitted.leftOut().map((said, i) => deltaE00(said.lab, lab[i]!));

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, v) => sum + v, 0) / Math.max(1, values.length);
