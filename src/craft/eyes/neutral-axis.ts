import { labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import type { ColourModel } from '#craft/inkmodel';

/** The greys of a model, beside its own white. */
export interface NeutralAxis {
  /** Media-relative Lab of device values 0..1. */
  relativeLab(rgb: Triple): Triple3;
  /** Device values of the grey of a media-relative lightness. */
  deviceOf(lightness: number): Triple3;
  /** Media-relative lightness of black. */
  readonly blackL: number;
  /** Absolute luminance of white, perfect diffuser 1. */
  readonly whiteY: number;
}

const steps = 48;

export function neutralAxis(model: ColourModel): NeutralAxis {
  const labOf = (rgb: Triple): Triple3 => {
    const lab = model.predictLab(Float64Array.from(rgb));
    return [lab[0]!, lab[1]!, lab[2]!];
  };
  const white = xyzFromLab(labOf([1, 1, 1]));
  const relativeLab = (rgb: Triple): Triple3 => labFromXyz(xyzFromLab(labOf(rgb)), white);
  const blackL = relativeLab([0, 0, 0])[0];
  const table: Triple3[] = [[0, 0, 0]];
  for (let step = 1; step < steps; step += 1) {
    const lightness = blackL + ((100 - blackL) * step) / steps;
    const start = table[step - 1]!.map((v) => Math.min(1, v + 1 / steps)) as Triple3;
    table.push(greyOf(relativeLab, lightness, start));
  }
  table.push([1, 1, 1]);
  return {
    relativeLab,
    blackL,
    whiteY: white[1],
    deviceOf(lightness) {
      const place = Math.min(steps, Math.max(0, (steps * (lightness - blackL)) / (100 - blackL)));
      const cell = Math.min(steps - 1, Math.floor(place));
      const [low, high] = [table[cell]!, table[cell + 1]!];
      return low.map((v, k) => v + (place - cell) * (high[k]! - v)) as Triple3;
    },
  };
}

/** Damped Gauss–Newton within the cube (Nocedal & Wright, Numerical Optimization, 2nd ed., 10.3). */
function greyOf(relativeLab: (rgb: Triple) => Triple3, lightness: number, start: Triple3): Triple3 {
  let rgb = start;
  let error = offBy(relativeLab(rgb), lightness);
  let damping = 1;
  for (let round = 0; round < 25 && size(error) > 0.02; round += 1) {
    const slope = [0, 1, 2].map((k) => {
      const h = rgb[k]! > 0.5 ? -0.004 : 0.004;
      const moved = [...rgb] as Triple3;
      moved[k] = moved[k]! + h;
      return offBy(relativeLab(moved), lightness).map((v, j) => (v - error[j]!) / h) as Triple3;
    });
    const move = normalEquations(slope, error, damping);
    const next = rgb.map((v, k) => Math.min(1, Math.max(0, v - move[k]!))) as Triple3;
    const nextError = offBy(relativeLab(next), lightness);
    if (size(nextError) < size(error)) {
      rgb = next;
      error = nextError;
      damping = Math.max(1e-4, damping / 4);
    } else {
      damping *= 6;
    }
  }
  return rgb;
}

const offBy = (lab: Triple3, lightness: number): Triple3 => [lab[0] - lightness, lab[1], lab[2]];
const size = (v: Triple3): number => Math.hypot(...v);

/** (JᵀJ + damping) move = Jᵀ error, with the slopes as J's columns; by Cramer's rule. */
function normalEquations(slope: readonly Triple3[], error: Triple3, damping: number): Triple3 {
  const dot = (a: Triple3, b: Triple3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const a = slope.map((one, i) => slope.map((other, j) => dot(one, other) + (i === j ? damping : 0)));
  const b = slope.map((one) => dot(one, error));
  const det = (m: number[][]): number =>
    m[0]![0]! * (m[1]![1]! * m[2]![2]! - m[1]![2]! * m[2]![1]!) -
    m[0]![1]! * (m[1]![0]! * m[2]![2]! - m[1]![2]! * m[2]![0]!) +
    m[0]![2]! * (m[1]![0]! * m[2]![1]! - m[1]![1]! * m[2]![0]!);
  const whole = det(a);
  return [0, 1, 2].map(
    (k) => det(a.map((row, i) => row.map((v, j) => (j === k ? b[i]! : v)))) / whole,
  ) as Triple3;
}
