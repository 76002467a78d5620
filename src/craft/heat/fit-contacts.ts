import { choleskyInPlace, inverseFromCholesky, solveCholesky } from '#craft/numerics';
import { Problem } from '#craft/problem';
import { type DoseKinetics, priorKinetics } from './dose.js';
import { jointOf, type RunFactors, withFactors } from './factors.js';
import { type PressCase, pressDose } from './press-case.js';
import { runHeat } from './run-heat.js';
import { valueAt } from './series.js';
import type { HeatRun } from './types.js';

export type ContactEvidence =
  | {
      /** A probe laid into the stack (a thin thermocouple on the blank's face, say). */
      readonly kind: 'trace';
      readonly run: HeatRun;
      readonly probe: string;
      readonly readings: readonly { readonly atSeconds: number; readonly celsius: number }[];
      /** Scatter of one reading, K. */
      readonly readingSdK: number;
      /** How far the whole trace may lie off, K. Default 2. */
      readonly offsetSdK?: number;
    }
  | {
      /** Two recipes known to be good, each on its blank: their doses are alike. */
      readonly kind: 'same-dose';
      readonly first: PressCase;
      readonly second: PressCase;
      /** How alike, as the standard deviation of the logarithm of their ratio. Default 0.2: about 20 %. */
      readonly sdLog?: number;
    };

export interface ContactFitRequest {
  /** Joints to be learnt, by `joint` (or layer id); all others stay as they are. */
  readonly joints: readonly string[];
  readonly evidence: readonly ContactEvidence[];
  /** Of each joint's factor before anything is seen. Default 0.6: from a half to twice is one standard deviation. */
  readonly priorSdLog?: number;
  /** Used for doses; its energy may move with the evidence, about `activationLog`. */
  readonly kinetics?: DoseKinetics;
  readonly activationSdLog?: number;
}

export interface FittedJoint {
  /** On the resistance given in the runs. */
  readonly factor: number;
  readonly sdLog: number;
  /** Share of the prior's variance that the evidence took away: near 0, nothing was learnt. */
  readonly learnt: number;
}

export interface ContactFit {
  readonly contacts: Readonly<Record<string, FittedJoint>>;
  /** Root mean square of what is left over, in standard deviations: about 1 if the model is right, above 2 doubtful. */
  readonly misfit: number;
  readonly converged: boolean;
}

interface Residual {
  /** Standardised. */
  readonly values: Float64Array;
}

/**
 * Contact resistances from the shop's own runs: maximum a posteriori by Levenberg and Marquardt's method on their
 * logarithms, spread by Laplace's approximation (Bishop, Pattern Recognition and Machine Learning, 4.4). An offset for
 * each trace and the activation energy are fitted along and left out of the answer.
 * @throws Problem `press.invalid` without evidence or with a joint that no run has
 */
export function fitContacts(request: ContactFitRequest): ContactFit {
  const { joints, evidence } = request;
  const known = new Set(
    evidence.flatMap(runsOf).flatMap((run) => run.layers.filter(hasContact).map(jointOf)),
  );
  for (const joint of joints)
    if (!known.has(joint))
      throw new Problem('press.invalid', `No run has a joint “${joint}” with a resistance to be learnt.`, {
        remedy: 'Give the layer a first guess of its contact resistance, or leave the joint out.',
      });
  const readings = evidence.reduce((sum, e) => sum + (e.kind === 'trace' ? e.readings.length : 1), 0);
  if (joints.length === 0 || readings === 0)
    throw new Problem('press.invalid', 'There is nothing to learn from.', {
      remedy: 'Give at least one joint, and one trace of temperatures or two good recipes.',
    });
  checkReadings(evidence);

  const traces = evidence.filter((e) => e.kind === 'trace');
  const doses = evidence.some((e) => e.kind === 'same-dose');
  const count = joints.length + traces.length + (doses ? 1 : 0);
  // Everything is in standard deviations of its prior.
  const jointSd = request.priorSdLog ?? 0.6;
  const energySd = request.activationSdLog ?? Math.log(priorKinetics.spread);
  const kinetics = request.kinetics ?? priorKinetics;
  const residualsAt = (x: Float64Array): Residual => {
    const factors: RunFactors = {
      contacts: Object.fromEntries(joints.map((joint, j) => [joint, Math.exp(jointSd * x[j]!)])),
    };
    const energy = doses ? kinetics.activationKJPerMol * Math.exp(energySd * x[count - 1]!) : 0;
    const values: number[] = [];
    for (const item of evidence) {
      if (item.kind === 'trace') {
        const offset = (item.offsetSdK ?? 2) * x[joints.length + traces.indexOf(item)]!;
        const result = runHeat(withFactors(item.run, factors), { stepToleranceK: 0.02 });
        const modelled = result.probes[item.probe]!;
        for (const { atSeconds, celsius } of item.readings)
          values.push((celsius - offset - valueAt(result.seconds, modelled, atSeconds)) / item.readingSdK);
      } else {
        const arrhenius = { ...kinetics, activationKJPerMol: energy };
        const doseOf = (pressCase: PressCase): number =>
          pressDose({ ...pressCase, run: withFactors(pressCase.run, factors) }, arrhenius, {
            stepToleranceK: 0.02,
          }).dose.at(-1)!;
        values.push(Math.log(doseOf(item.first) / doseOf(item.second)) / (item.sdLog ?? 0.2));
      }
    }
    return { values: Float64Array.from(values) };
  };

  let x = new Float64Array(count);
  let residual = residualsAt(x);
  let cost = costOf(residual, x);
  let damping = 1e-3;
  let converged = false;
  let information = new Float64Array(count * count);
  for (let round = 0; round < 30 && !converged; round += 1) {
    const jacobian = jacobianAt(residualsAt, x, residual);
    information = informationOf(jacobian, count);
    const gradient = new Float64Array(count);
    for (let i = 0; i < count; i += 1) {
      let sum = -x[i]!;
      for (let r = 0; r < residual.values.length; r += 1) sum -= jacobian[i]![r]! * residual.values[r]!;
      gradient[i] = sum;
    }
    let improved = false;
    for (let tries = 0; tries < 10 && !improved; tries += 1) {
      const damped = information.slice();
      for (let i = 0; i < count; i += 1) damped[i * count + i] = damped[i * count + i]! * (1 + damping);
      if (!choleskyInPlace(damped, count)) break;
      const step = solveCholesky(damped, count, gradient);
      // Beyond four standard deviations the prior would not follow anyway.
      const next = x.map((value, i) => Math.max(-4, Math.min(4, value + step[i]!)));
      const nextResidual = residualsAt(next);
      const nextCost = costOf(nextResidual, next);
      if (nextCost <= cost) {
        converged = cost - nextCost < 1e-6 * (1 + cost);
        x = next;
        residual = nextResidual;
        cost = nextCost;
        damping = Math.max(1e-7, damping / 5);
        improved = true;
      } else {
        damping *= 5;
      }
    }
    // No step downhill is left: that is the bottom, to the accuracy of the runs.
    if (!improved) converged = true;
  }
  information = informationOf(jacobianAt(residualsAt, x, residual), count);
  choleskyInPlace(information, count);
  const covariance = inverseFromCholesky(information, count);
  return {
    contacts: Object.fromEntries(
      joints.map((joint, j) => {
        const variance = covariance[j * count + j]!;
        return [
          joint,
          {
            factor: Math.exp(jointSd * x[j]!),
            sdLog: jointSd * Math.sqrt(variance),
            learnt: Math.max(0, 1 - variance),
          },
        ];
      }),
    ),
    misfit: Math.sqrt(residual.values.reduce((sum, r) => sum + r * r, 0) / residual.values.length),
    converged,
  };
}

const hasContact = (layer: HeatRun['layers'][number]): boolean => (layer.contactM2KPerW ?? 0) > 0;

function runsOf(item: ContactEvidence): readonly HeatRun[] {
  return item.kind === 'trace' ? [item.run] : [item.first.run, item.second.run];
}

function checkReadings(evidence: readonly ContactEvidence[]): void {
  for (const item of evidence) {
    if (item.kind !== 'trace') continue;
    if (!item.run.probes.some((probe) => probe.name === item.probe))
      throw new Problem('press.invalid', `No probe “${item.probe}” is followed in this run.`, {
        remedy: 'Say where in the stack the thermometer lay.',
      });
    const end = item.run.phases.reduce((sum, phase) => sum + phase.seconds, 0);
    for (const { atSeconds, celsius } of item.readings)
      if (!(atSeconds >= 0 && atSeconds <= end && Number.isFinite(celsius)))
        throw new Problem(
          'press.invalid',
          `A reading at ${atSeconds} s lies outside the run of ${end} s or is no number.`,
          {
            remedy: 'Look over the times; they count from the start of the run.',
          },
        );
    if (!(item.readingSdK > 0))
      throw new Problem('press.invalid', 'The scatter of a reading must be above zero.', {
        remedy: 'Give what one reading may be off, in kelvin; 1 is usual.',
      });
  }
}

function costOf(residual: Residual, x: Float64Array): number {
  const sum = (values: Float64Array): number => values.reduce((total, v) => total + v * v, 0);
  return 0.5 * (sum(residual.values) + sum(x));
}

/** Column i: how all residuals change with x[i]; one-sided differences wide enough for the runs' own accuracy. */
function jacobianAt(f: (x: Float64Array) => Residual, x: Float64Array, at: Residual): Float64Array[] {
  const width = 0.02;
  return Array.from(x, (value, i) => {
    const moved = x.slice();
    moved[i] = value + width;
    return f(moved).values.map((v, r) => (v - at.values[r]!) / width);
  });
}

/** JᵀJ + I: the priors are of unit width. */
function informationOf(jacobian: readonly Float64Array[], count: number): Float64Array<ArrayBuffer> {
  const information = new Float64Array(count * count);
  for (let i = 0; i < count; i += 1)
    for (let j = 0; j < count; j += 1) {
      let sum = i === j ? 1 : 0;
      for (let r = 0; r < jacobian[i]!.length; r += 1) sum += jacobian[i]![r]! * jacobian[j]![r]!;
      information[i * count + j] = sum;
    }
  return information;
}
