import { Problem } from '#craft/problem';
import { buildChain, type Chain } from './chain.js';
import { checkRun } from './check-run.js';
import { bendsOf } from './course.js';
import { EnergyLedger } from './energy.js';
import { shellGeometry } from './geometry.js';
import { type LayerMesh, meshLayer } from './mesh.js';
import { Recorder } from './recorder.js';
import { Stepper } from './stepper.js';
import type { HeatOptions, HeatResult, HeatRun, Phase, Side } from './types.js';

const mostSteps = 200_000;

/**
 * Follows a run through its phases. Second order in time and space.
 * @throws Problem `press.invalid` for a stack that cannot be, `press.unsafe` above the bound of temperature
 */
export function runHeat(run: HeatRun, options: HeatOptions = {}): HeatResult {
  checkRun(run, options);
  const shells = shellGeometry(run.geometry, run.layers);
  const meshes = run.layers.map((layer, i) =>
    meshLayer(layer, shells, shells.radiiM[i]!, shells.radiiM[i + 1]!, options.meshFactor ?? 1),
  );
  const temperatures = new Map<LayerMesh, Float64Array>(
    meshes.map((mesh) => [mesh, new Float64Array(mesh.capacities.length).fill(mesh.layer.startC)]),
  );
  const platens = { top: run.topPlaten?.startC ?? 0, bottom: run.bottomPlaten?.startC ?? 0 };
  const ledger = new EnergyLedger();
  const recorder = new Recorder(run, shells.radiiM);
  let present: readonly LayerMesh[] | null = null;
  let clock = 0;

  for (const phase of run.phases) {
    const now = meshes.filter((mesh) => phase.layers === undefined || phase.layers.includes(mesh.layer.id));
    changeLayers(ledger, temperatures, present, now, phase);
    present = now;
    const chain = buildChain(run, phase, now);
    let celsius = new Float64Array(chain.count);
    if (chain.topPlaten !== null) celsius[chain.topPlaten] = platens.top;
    if (chain.bottomPlaten !== null) celsius[chain.bottomPlaten] = platens.bottom;
    for (const piece of chain.pieces) celsius.set(temperatures.get(piece.mesh)!, piece.firstNode);

    celsius = runPhase(chain, phase, celsius, clock, options, ledger, recorder);

    if (chain.topPlaten !== null) platens.top = celsius[chain.topPlaten]!;
    if (chain.bottomPlaten !== null) platens.bottom = celsius[chain.bottomPlaten]!;
    for (const { mesh, firstNode } of chain.pieces)
      temperatures.set(mesh, celsius.slice(firstNode, firstNode + mesh.capacities.length));
    clock += phase.seconds;
  }
  return recorder.result(ledger.account());
}

/** Puts down and takes away layers between phases, and books the warmth they carry. */
function changeLayers(
  ledger: EnergyLedger,
  temperatures: Map<LayerMesh, Float64Array>,
  before: readonly LayerMesh[] | null,
  now: readonly LayerMesh[],
  phase: Phase,
): void {
  const warmth = (mesh: LayerMesh): number =>
    temperatures.get(mesh)!.reduce((sum, celsius, i) => sum + celsius * mesh.capacities[i]!, 0);
  // What lies there at the very start is no gain.
  if (before === null) return;
  const renewed = (mesh: LayerMesh): boolean => phase.freshPiece === true && !mesh.layer.ofPress;
  for (const mesh of before) if (!now.includes(mesh) || renewed(mesh)) ledger.carry(-warmth(mesh));
  for (const mesh of now) {
    if (before.includes(mesh) && !renewed(mesh)) continue;
    if (!mesh.layer.ofPress) temperatures.get(mesh)!.fill(mesh.layer.startC);
    ledger.carry(warmth(mesh));
  }
}

function runPhase(
  chain: Chain,
  phase: Phase,
  startC: Float64Array<ArrayBuffer>,
  clock: number,
  options: HeatOptions,
  ledger: EnergyLedger,
  recorder: Recorder,
): Float64Array<ArrayBuffer> {
  let celsius = startC;
  const stepper = new Stepper(chain);
  stepper.start.evaluate(celsius, 0);
  const before = ledger.soFar();
  recorder.beginPhase(phase, chain, clock);
  recorder.sample(clock, celsius, stepper.start);
  const profileWanted = (seconds: number): boolean =>
    options.profilesAtSeconds?.some((wanted) => Math.abs(wanted - seconds) <= 1e-9 * (1 + seconds)) ?? false;
  if (clock === 0 && profileWanted(0)) recorder.profile(0, celsius, stepper.start);
  const stops = stopsWithin(phase, clock, options);
  const tolerance = options.stepToleranceK ?? 0.01;
  const fixedStep = options.fixedSteps === undefined ? null : phase.seconds / options.fixedSteps;
  let step = fixedStep ?? Math.min(phase.seconds / 100, 1e-3);
  let at = 0;
  let tries = 0;
  let nextStop = 0;
  while (at < phase.seconds) {
    tries += 1;
    const stop = stops[nextStop]!;
    const room = stop - at;
    // A sliver left before a stop would be lost in rounding.
    const landing = step >= room * (1 - 1e-9);
    const taken = landing ? room : step > room / 2 && fixedStep === null ? room / 2 : step;
    const error = stepper.attempt(celsius, at, taken);
    const share = error / tolerance;
    const rejected = fixedStep === null ? share > 1 : error === Number.POSITIVE_INFINITY;
    if (tries > mostSteps || (rejected && (fixedStep !== null || taken < 1e-12 * phase.seconds)))
      throw new Problem(
        'press.invalid',
        `The temperatures of the phase “${phase.name}” cannot be worked out.`,
        {
          remedy:
            'Look over its temperatures, times and thicknesses: one of them is far out of the ordinary.',
          where: phase.name,
        },
      );
    // Error of the step grows with its third power.
    const growth = Math.min(4, Math.max(0.2, 0.9 * Math.max(share, 1e-6) ** (-1 / 3)));
    if (fixedStep === null) step = rejected ? taken * growth : Math.max(taken * growth, landing ? step : 0);
    if (rejected) continue;
    ledger.step(
      chain,
      [
        [stepper.start, celsius],
        [stepper.middle, stepper.middleC],
        [stepper.end, stepper.endC],
      ],
      celsius,
      stepper.endC,
      taken,
    );
    celsius = stepper.endC.slice();
    at = landing ? stop : at + taken;
    if (landing) nextStop += 1;
    stepper.accept();
    recorder.sample(clock + at, celsius, stepper.start);
    if (profileWanted(clock + at)) recorder.profile(clock + at, celsius, stepper.start);
  }
  const after = ledger.soFar();
  recorder.endPhase(clock + phase.seconds, {
    intoStackJPerM2: after.intoStackJPerM2 - before.intoStackJPerM2,
    platenLossJPerM2: after.platenLossJPerM2 - before.platenLossJPerM2,
  });
  return celsius;
}

/** Seconds of the phase at which a step must end: bends of courses, wanted profiles, the end itself. */
function stopsWithin(phase: Phase, clock: number, options: HeatOptions): number[] {
  const bends = (side: Side): readonly number[] => {
    if (side.kind === 'fixed') return bendsOf(side.celsius);
    if (side.kind === 'flux') return bendsOf(side.wPerM2);
    if (side.kind === 'air') return [...bendsOf(side.airC), ...bendsOf(side.surroundingsC ?? 0)];
    return [];
  };
  const profiles = (options.profilesAtSeconds ?? []).map((seconds) => seconds - clock);
  const inside = [...bends(phase.top), ...bends(phase.bottom), ...profiles].filter(
    (seconds) => seconds > 1e-9 * phase.seconds && seconds < phase.seconds * (1 - 1e-9),
  );
  // Two stops next to the same moment are one.
  return [...inside, phase.seconds]
    .sort((a, b) => a - b)
    .filter((seconds, i, all) => i === all.length - 1 || all[i + 1]! - seconds > 1e-9 * phase.seconds);
}
