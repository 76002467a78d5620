import { createRandom } from '#craft/numerics';
import { checkCoupons } from './check-coupons.js';
import type { Aside } from './curves.js';
import { contradictions, oddCoupons } from './doubts.js';
import { type CouponsAt, type CurveFit, fitCurve } from './fit-curve.js';
import {
  activationPrior,
  type DoseLaw,
  logDose,
  pressureExponentPrior,
  type WarmUp,
  warmUpPrior,
} from './kinetics.js';
import { estimateOf, mean } from './quantile.js';
import { type Response, type ResponseId, responsesOf } from './responses.js';
import type { Coupon, Estimate, PressStep } from './types.js';

export interface LadderOptions {
  readonly seed: number;
  /** Possible worlds drawn from what the coupons say. Default 400. */
  readonly draws?: number;
  /** How the dye's place warms up; fitted, with a wide prior, when absent. */
  readonly warmUp?: WarmUp;
  /** How well the press repeats a dose, standard deviation of its logarithm. Default 0.02 (a guess: half a degree and half a second). */
  readonly pressRepeatsLog?: number;
}

/** One world that fits the coupons: its dose law and the parameters of each curve. Plain numbers, to be kept as JSON. */
export interface LadderDraw {
  readonly activationKJPerMol: number;
  readonly pressureExponent: number;
  readonly warmUp: WarmUp;
  /** ln dose of the middle of the coupons under this law: curves count from it. */
  readonly middleLogDose: number;
  /** ln dose from there of the coupons pressed least and most. */
  readonly reach: readonly [least: number, most: number];
  readonly theta: readonly (readonly number[])[];
}

export interface LadderFit {
  readonly coupons: readonly Coupon[];
  readonly responses: readonly Response[];
  readonly draws: readonly LadderDraw[];
  readonly referenceC: number;
  readonly referencePressureBar: number;
  readonly warmUp?: WarmUp;
  readonly activation: Estimate & { readonly isFitted: boolean; readonly basis: string };
  readonly pressureExponent: Estimate & { readonly isFitted: boolean };
  readonly pressRepeatsLog: number;
  /** Coupons whose values lie far from what the others say, or that look exchanged. */
  readonly remarks: readonly string[];
}

/** A dose law with the weight it has, and each response's curves under it, one for each scatter tried. */
type Law = DoseLaw & { readonly warmUp: WarmUp };

interface WarmUpTried {
  readonly warmUp: WarmUp;
  readonly logWeight: number;
}

interface Node {
  readonly law: Law;
  readonly middle: number;
  readonly logWeight: number;
  readonly fits: readonly { readonly fit: CurveFit; readonly logWeight: number }[][];
}

/**
 * Fits every value followed against one dose. The dose law (activation energy, exponent of pressure) is integrated on a
 * grid that closes in on where it is likely, the scatter between coupons on a grid too, the curves' parameters by Laplace's
 * method; then worlds are drawn from the mixture.
 * @throws Problem `ladder.unusable`, `press.invalid`, `press.unsafe`
 */
export function fitLadder(coupons: readonly Coupon[], options: LadderOptions): LadderFit {
  checkCoupons(coupons);
  contradictions(coupons);
  const responses = responsesOf(coupons);
  const steps = coupons.map(({ step }) => step);
  const referenceC = mean(steps.map(({ platenC }) => platenC));
  const pressures = steps.flatMap(({ pressureBar }) => (pressureBar === undefined ? [] : [pressureBar]));
  const referencePressureBar =
    pressures.length === 0 ? 1 : Math.exp(mean(pressures.map((bar) => Math.log(bar))));
  const repeats = options.pressRepeatsLog ?? 0.02;
  const frame = { referenceC, referencePressureBar };
  const warmUps = warmUpsTried(steps, options.warmUp);

  const aside = steps.map((step) => asideOf(step, frame));
  let previous: Node | undefined;
  const nodeAt = (activationKJPerMol: number, pressureExponent: number, tried: WarmUpTried): Node => {
    const law: Law = { ...frame, activationKJPerMol, pressureExponent, warmUp: tried.warmUp };
    const doses = steps.map((step) => logDose(step, law));
    const middle = mean(doses);
    const at: CouponsAt = { z: doses.map((dose) => dose - middle), aside };
    const fits = responses.map((response, r) =>
      response.scatters.map((scatter, s) => {
        const start = previous?.fits[r]?.[s]?.fit.theta;
        const fit = fitCurve(response.curve, response.evidence, at, scatter, repeats, start);
        return { fit, logWeight: fit.logEvidence + scatterPrior(scatter, response) };
      }),
    );
    const logWeight =
      tried.logWeight -
      // Nodes are even in the logarithm, so the density over it is what counts.
      0.5 * (Math.log(activationKJPerMol / activationPrior.medianKJPerMol) / activationPrior.sdLog) ** 2 -
      0.5 * ((pressureExponent - pressureExponentPrior.mean) / pressureExponentPrior.sd) ** 2 +
      fits.reduce((sum, tried) => sum + logSumExp(tried.map((fit) => fit.logWeight)), 0);
    previous = { law, middle, logWeight, fits };
    return previous;
  };

  const tempsVary = Math.max(...steps.map((s) => s.platenC)) - Math.min(...steps.map((s) => s.platenC)) > 0.5;
  const pressuresVary = pressures.length > 0 && Math.max(...pressures) > 1.02 * Math.min(...pressures);
  const nodes = closeIn(nodeAt, warmUps, tempsVary, pressuresVary);

  const random = createRandom(options.seed);
  const draws = Array.from({ length: options.draws ?? 400 }, (): LadderDraw => {
    const node = pick(nodes, (n) => n.logWeight, random.uniform());
    const theta = node.fits.map((tried) => {
      const { fit } = pick(tried, (t) => t.logWeight, random.uniform());
      return drawFrom(fit, () => random.normal());
    });
    // What the coupons could not tell is drawn from the prior; it matters only away from where they were pressed.
    const activationKJPerMol = tempsVary
      ? node.law.activationKJPerMol
      : within(
          activationPrior.medianKJPerMol * Math.exp(activationPrior.sdLog * random.normal()),
          activationPrior.lowKJPerMol,
          activationPrior.highKJPerMol,
        );
    const pressureExponent = pressuresVary
      ? node.law.pressureExponent
      : pressureExponentPrior.mean + pressureExponentPrior.sd * random.normal();
    const doses = steps.map((step) => logDose(step, { ...node.law, activationKJPerMol, pressureExponent }));
    const middleLogDose = mean(doses);
    const reach = [Math.min(...doses) - middleLogDose, Math.max(...doses) - middleLogDose] as const;
    return { activationKJPerMol, pressureExponent, warmUp: node.law.warmUp, middleLogDose, reach, theta };
  });

  const best = nodes.reduce((a, b) => (b.logWeight > a.logWeight ? b : a));
  const z = steps.map((step) => logDose(step, best.law) - best.middle);
  const remarks = oddCoupons(coupons, responses, best.fits.map(bestOf), { z, aside }, repeats);
  if (responses.length === 0)
    remarks.push('No value was given for three coupons or more: nothing can be fitted.');
  return {
    coupons,
    responses,
    draws,
    ...frame,
    ...(options.warmUp ? { warmUp: options.warmUp } : {}),
    activation: {
      ...estimateOf(draws.map((draw) => draw.activationKJPerMol)),
      isFitted: tempsVary,
      basis: tempsVary
        ? 'Fitted from coupons at several temperatures.'
        : `All coupons had one temperature, so it is assumed (${activationPrior.medianKJPerMol} kJ/mol, a third more or less: an inference): figures in °C are rough.`,
    },
    pressureExponent: {
      ...estimateOf(draws.map((draw) => draw.pressureExponent)),
      isFitted: pressuresVary,
    },
    pressRepeatsLog: repeats,
    remarks,
  };
}

/** Shares of the coupons' mean time, even enough in the logarithm for what so few coupons tell. */
const warmUpShares = [0.006, 0.02, 0.045, 0.075, 0.12] as const;

function warmUpsTried(steps: readonly PressStep[], given: WarmUp | undefined): WarmUpTried[] {
  if (given) return [{ warmUp: given, logWeight: 0 }];
  const { medianShare, sdLog, startC } = warmUpPrior;
  const seconds = Math.exp(mean(steps.map(({ dwellSeconds }) => Math.log(dwellSeconds))));
  return warmUpShares.map((share) => ({
    warmUp: { timeConstantSeconds: share * seconds, startC },
    logWeight: -0.5 * (Math.log(share / medianShare) / sdLog) ** 2,
  }));
}

/** Half-normal: large scatter is less likely than small. The grid runs in ratios, hence the factor. */
function scatterPrior(scatter: number, { scatters }: Response): number {
  const usual = scatters[Math.min(scatters.length - 1, 2)]!;
  return -0.5 * (scatter / usual) ** 2;
}

/** A coarse grid over what is not known, then finer ones over the part that holds nearly all the weight. */
function closeIn(
  nodeAt: (activation: number, exponent: number, tried: WarmUpTried) => Node,
  warmUps: readonly WarmUpTried[],
  withActivation: boolean,
  withPressure: boolean,
): Node[] {
  const { lowKJPerMol, highKJPerMol, medianKJPerMol } = activationPrior;
  let logs = withActivation
    ? evenSteps(Math.log(lowKJPerMol), Math.log(highKJPerMol), withPressure ? 7 : 9)
    : [Math.log(medianKJPerMol)];
  let exponents = withPressure ? evenSteps(-0.6, 1.4, withActivation ? 7 : 9) : [pressureExponentPrior.mean];
  for (let round = 0; ; round += 1) {
    const nodes = warmUps.flatMap((tried) =>
      logs.flatMap((log) => exponents.map((exponent) => nodeAt(Math.exp(log), exponent, tried))),
    );
    const top = Math.max(...nodes.map((n) => n.logWeight));
    // Worlds are drawn from nodes, so a few of them must share the weight; those below e⁻⁶ hardly count.
    const held = nodes.filter((n) => n.logWeight > top - 6);
    if (round === 4 || held.length >= 0.45 * nodes.length) return held;
    const narrowed = (values: number[], of: (n: Node) => number): number[] => {
      if (values.length === 1) return values;
      const step = values[1]! - values[0]!;
      const inside = held.map(of);
      const [low, high] = [Math.min(...inside) - 0.8 * step, Math.max(...inside) + 0.8 * step];
      return evenSteps(Math.max(low, values[0]!), Math.min(high, values.at(-1)!), values.length);
    };
    warmUps = warmUps.filter((tried) => held.some((n) => n.law.warmUp === tried.warmUp));
    logs = narrowed(logs, (n) => Math.log(n.law.activationKJPerMol));
    exponents = narrowed(exponents, (n) => n.law.pressureExponent);
  }
}

const evenSteps = (low: number, high: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => low + ((high - low) * i) / (count - 1));

function bestOf(tried: readonly { fit: CurveFit; logWeight: number }[]): CurveFit {
  return tried.reduce((a, b) => (b.logWeight > a.logWeight ? b : a)).fit;
}

function drawFrom({ theta, spread }: CurveFit, normal: () => number): number[] {
  const p = theta.length;
  const chance = Array.from({ length: p }, normal);
  return Array.from(theta, (v, i) => {
    let sum = v;
    for (let k = 0; k <= i; k += 1) sum += spread[i * p + k]! * chance[k]!;
    return sum;
  });
}

function pick<T>(items: readonly T[], logWeight: (item: T) => number, at: number): T {
  const total = logSumExp(items.map(logWeight));
  let sum = 0;
  for (const item of items) {
    sum += Math.exp(logWeight(item) - total);
    if (at < sum) return item;
  }
  return items.at(-1)!;
}

function logSumExp(values: readonly number[]): number {
  const top = Math.max(...values);
  return top + Math.log(values.reduce((sum, v) => sum + Math.exp(v - top), 0));
}

const within = (v: number, low: number, high: number): number => Math.min(high, Math.max(low, v));

export const lawOf = (fit: LadderFit, draw: LadderDraw): DoseLaw => ({
  activationKJPerMol: draw.activationKJPerMol,
  pressureExponent: draw.pressureExponent,
  referenceC: fit.referenceC,
  referencePressureBar: fit.referencePressureBar,
  warmUp: draw.warmUp,
});

export const asideOf = (
  { platenC, pressureBar }: Omit<PressStep, 'dwellSeconds'>,
  { referenceC, referencePressureBar }: Pick<LadderFit, 'referenceC' | 'referencePressureBar'>,
): Aside => ({
  warmth: (platenC - referenceC) / 10,
  firmness: pressureBar === undefined ? 0 : Math.log(pressureBar / referencePressureBar),
});

/** Index of a response, −1 when it was not followed. */
export const indexOf = (fit: LadderFit, id: ResponseId): number =>
  fit.responses.findIndex((response) => response.id === id);
