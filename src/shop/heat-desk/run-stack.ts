import type { HeatCurve, HeatStack } from '#contract';
import {
  type Course,
  doseSeconds,
  type HeatRun,
  type Material,
  materials,
  type Platen,
  type Probe,
  peak,
  runHeat,
  type Side,
  usualPlaten,
  valueAt,
} from '#craft/heat';
import { Problem } from '#craft/problem';
import { short } from './estimate.js';

type StackSide = HeatStack['phases'][number]['above'];

/** A stack as it was described, run. @throws Problem `press.invalid`, `press.unsafe` */
export function runStack(stack: HeatStack): HeatCurve {
  const run = runOf(stack);
  const result = runHeat(run);
  const end = result.seconds.at(-1)!;
  const seconds = Array.from({ length: stack.points }, (_, i) => (end * i) / (stack.points - 1));
  const followed: Record<string, Float64Array> = { ...result.probes };
  const platens: Record<string, Float64Array> = {};
  if (result.topPlatenC !== null) platens['upper platen'] = result.topPlatenC;
  if (result.bottomPlatenC !== null) platens['lower platen'] = result.bottomPlatenC;
  const courses = Object.entries({ ...followed, ...platens }).map(([name, celsius]) => {
    const hottest = peak({ seconds: result.seconds, probes: { [name]: celsius } }, name);
    return {
      name,
      celsius: seconds.map((at) => known(valueAt(result.seconds, celsius, at))),
      peakC: hottest === null ? null : hottest.celsius,
      peakSeconds: hottest === null ? null : hottest.seconds,
      endC: known(celsius.at(-1)!),
    };
  });
  const dose = doseOf(stack, result);
  const { energy } = result;
  return {
    title: stack.title,
    seconds,
    courses,
    phases: result.phases.map(({ name, startSeconds, endSeconds }) => ({
      name,
      fromSeconds: startSeconds,
      toSeconds: endSeconds,
    })),
    dose,
    energy: {
      heatersJPerM2: energy.heatersJPerM2,
      platenLossJPerM2: energy.platenLossJPerM2,
      aboveJPerM2: energy.topJPerM2,
      belowJPerM2: energy.bottomJPerM2,
      storedJPerM2: energy.storedJPerM2,
      closure: energy.closure,
    },
    materials: materialsOf(stack),
    sentences: [
      ...courses
        .filter(({ name }) => !(name in platens))
        .flatMap(({ name, peakC, peakSeconds, endC }) =>
          peakC === null || peakSeconds === null
            ? []
            : [
                `“${name}” is hottest after ${short(peakSeconds)} s with ${short(peakC)} °C${endC === null ? '' : `, and ends at ${short(endC)} °C`}.`,
              ],
        ),
      ...(dose === null
        ? []
        : [
            `The dose at “${stack.dye!.follow}” is worth ${short(dose.seconds)} s at ${short(dose.referenceC)} °C (at ${short(dose.activationKJPerMol)} kJ/mol).`,
          ]),
      'Computed along one line, for the stack as described; the makers’ instructions come first.',
    ],
  };
}

const known = (value: number): number | null => (Number.isFinite(value) ? value : null);

function runOf(stack: HeatStack): HeatRun {
  const follow: readonly Probe[] =
    stack.follow ?? stack.layers.map(({ id }) => ({ name: id, layer: id, depth: 0.5 }));
  expectOwnNames(follow);
  return {
    geometry: stack.shape.kind === 'flat' ? { kind: 'plane' } : stack.shape,
    layers: stack.layers.map(({ id, material, thicknessMm, startC, jointM2KPerW, lumped, ofPress }) => ({
      id,
      material: materialOf(material),
      thicknessMm,
      startC: startC ?? stack.roomC,
      contactM2KPerW: jointM2KPerW,
      lumped,
      ofPress,
    })),
    ...(stack.upperPlaten === undefined ? {} : { topPlaten: platenOf(stack.upperPlaten) }),
    ...(stack.lowerPlaten === undefined ? {} : { bottomPlaten: platenOf(stack.lowerPlaten) }),
    roomC: stack.roomC,
    phases: stack.phases.map(({ name, seconds, above, below, layers, freshPiece }) => ({
      name,
      seconds,
      top: sideOf(above),
      bottom: sideOf(below),
      ...(layers === undefined ? {} : { layers }),
      ...(freshPiece === undefined ? {} : { freshPiece }),
    })),
    probes: follow,
  };
}

function expectOwnNames(follow: readonly Probe[]): void {
  const names = follow.map(({ name }) => name);
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice === undefined) return;
  throw new Problem('press.invalid', `Two places are followed as “${twice}”.`, {
    remedy: 'Give each place that is followed its own name.',
    where: 'follow',
  });
}

function platenOf(given: NonNullable<HeatStack['upperPlaten']>): Platen {
  const { setC, startC = setC, heatCapacityJPerM2K, maxWPerM2, bandK, lossWPerM2K } = given;
  return {
    ...usualPlaten,
    setC,
    startC,
    ...(heatCapacityJPerM2K === undefined ? {} : { heatCapacityJPerM2K }),
    ...(maxWPerM2 === undefined ? {} : { maxWPerM2 }),
    ...(bandK === undefined ? {} : { bandK }),
    ...(lossWPerM2K === undefined ? {} : { lossWPerM2K }),
  };
}

function sideOf(side: StackSide): Side {
  if (side.kind === 'insulated') return side;
  if (side.kind === 'flux') return { kind: 'flux', wPerM2: courseOf(side.wPerM2) };
  if (side.kind === 'air')
    return {
      kind: 'air',
      airC: courseOf(side.airC),
      hWPerM2K: side.hWPerM2K,
      ...(side.emissivity === undefined ? {} : { emissivity: side.emissivity }),
      ...(side.surroundingsC === undefined ? {} : { surroundingsC: courseOf(side.surroundingsC) }),
    };
  const joint = side.jointM2KPerW === undefined ? {} : { contactM2KPerW: side.jointM2KPerW };
  return side.kind === 'platen'
    ? { kind: 'platen', ...joint }
    : { kind: 'fixed', celsius: courseOf(side.celsius), ...joint };
}

const courseOf = (given: number | { atSeconds: number; value: number }[]): Course => given;

function materialOf(given: HeatStack['layers'][number]['material']): Material {
  if (typeof given !== 'string') return { ...given, id: given.name, source: 'given', basis: 'guess' };
  const found = Object.values<Material>(materials).find(({ id }) => id === given);
  if (found !== undefined) return found;
  throw new Problem('press.invalid', `There is no material “${given}” in the list.`, {
    remedy: `Give its own figures, or one of: ${Object.keys(materials).join(', ')}.`,
    where: 'layers.material',
  });
}

function materialsOf(stack: HeatStack): HeatCurve['materials'] {
  const all = stack.layers.map(({ material }) => {
    const { name, basis, source } = materialOf(material);
    return { name, basis: typeof material === 'string' ? basis : ('given' as const), source };
  });
  return all.filter(({ name }, i) => all.findIndex((other) => other.name === name) === i);
}

function doseOf(stack: HeatStack, result: ReturnType<typeof runHeat>): HeatCurve['dose'] {
  if (stack.dye === undefined) return null;
  const { follow, phase, activationKJPerMol, referenceC } = stack.dye;
  const celsius = result.probes[follow];
  if (celsius === undefined)
    throw new Problem('press.invalid', `No place “${follow}” is followed.`, {
      remedy: 'Name one of the places under “follow”.',
      where: 'dye.follow',
    });
  const span = phase === undefined ? null : result.phases.find(({ name }) => name === phase);
  if (span === undefined)
    throw new Problem('press.invalid', `The run has no phase “${phase}”.`, {
      remedy: 'Name the phase in which paper and blank are pressed together.',
      where: 'dye.phase',
    });
  const [first, last] = span === null ? [0, result.seconds.length - 1] : [span.first, span.last];
  const trace = {
    seconds: result.seconds.subarray(first, last + 1),
    celsius: celsius.subarray(first, last + 1),
  };
  return {
    seconds: doseSeconds(trace, { activationKJPerMol, referenceC }),
    referenceC,
    activationKJPerMol,
  };
}
