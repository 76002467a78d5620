import { Problem } from '#craft/problem';
import { valuesOf } from './course.js';
import type { Course, HeatLayer, HeatOptions, HeatRun, Phase, Platen, Side } from './types.js';

/**
 * Nothing that presses or bakes dye is set above this: the contract's recipes end here too, and PTFE sheet begins to
 * degrade some 30 K higher, with fumes that harm people and kill birds.
 */
export const safetyBoundC = 230;
const absoluteZeroC = -273.15;
/** Beyond any press; keeps radiation's fourth power in bounds. */
const hottestC = 3000;
const mostLayers = 40;
const mostPhases = 200;
const longestSeconds = 1e9;

/** @throws Problem `press.invalid` or `press.unsafe`, naming the value */
export function checkRun(run: HeatRun, options: HeatOptions): void {
  const bound = options.boundC ?? safetyBoundC;
  if (run.layers.length === 0 || run.layers.length > mostLayers)
    refuse(
      `A stack has 1 to ${mostLayers} layers, not ${run.layers.length}.`,
      'Describe what lies in the press.',
    );
  if (run.phases.length === 0 || run.phases.length > mostPhases)
    refuse(
      `A run has 1 to ${mostPhases} phases, not ${run.phases.length}.`,
      'Say what happens, step by step.',
    );
  const ids = new Set<string>();
  for (const layer of run.layers) {
    if (ids.has(layer.id)) refuse(`Two layers are called “${layer.id}”.`, 'Give each layer its own id.');
    ids.add(layer.id);
    checkLayer(layer);
  }
  within('the temperature of the room', run.roomC, -50, 100, '°C');
  for (const [name, platen] of [
    ['upper platen', run.topPlaten],
    ['lower platen', run.bottomPlaten],
  ] as const)
    if (platen !== undefined) checkPlaten(name, platen, bound);
  checkGeometry(run, ids);
  for (const probe of run.probes) {
    if (!ids.has(probe.layer))
      refuse(`There is no layer “${probe.layer}” to follow.`, 'Name one of the layers.');
    within(`the depth of “${probe.name}”`, probe.depth, 0, 1, '');
  }
  for (const phase of run.phases) checkPhase(run, phase, ids, bound);
  if (options.fixedSteps !== undefined) whole('the number of steps', options.fixedSteps, 1, 100_000);
  if (options.meshFactor !== undefined) within('the mesh factor', options.meshFactor, 0.25, 64, '');
  if (options.stepToleranceK !== undefined)
    within('the step tolerance', options.stepToleranceK, 1e-9, 10, 'K');
}

function checkLayer(layer: HeatLayer): void {
  const of = `of “${layer.id}”`;
  within(`the thickness ${of}`, layer.thicknessMm, 1e-4, 1e5, 'mm');
  within(`the start temperature ${of}`, layer.startC, absoluteZeroC, hottestC, '°C');
  within(`the contact resistance ${of}`, layer.contactM2KPerW ?? 0, 0, 100, 'm²K/W');
  within(`the conductivity ${of}`, layer.material.conductivityWPerMK, 1e-4, 1e4, 'W/(m·K)');
  within(`the density ${of}`, layer.material.densityKgPerM3, 1e-2, 3e4, 'kg/m³');
  within(`the heat capacity ${of}`, layer.material.heatCapacityJPerKgK, 10, 2e4, 'J/(kg·K)');
  within(`the emissivity ${of}`, layer.material.emissivity, 0, 1, '');
  if (layer.cells !== undefined) whole(`the number of cells ${of}`, layer.cells, 1, 2000);
}

function checkPlaten(name: string, platen: Platen, bound: number): void {
  safe(`The ${name}`, platen.setC, bound);
  within(`the start temperature of the ${name}`, platen.startC, -50, hottestC, '°C');
  within(`the heat capacity of the ${name}`, platen.heatCapacityJPerM2K, 10, 1e7, 'J/(m²K)');
  within(`the power of the ${name}`, platen.maxWPerM2, 0, 1e6, 'W/m²');
  within(`the control band of the ${name}`, platen.bandK, 0.01, 100, 'K');
  within(`the losses of the ${name}`, platen.lossWPerM2K, 0, 1000, 'W/(m²K)');
  within(`the open face of the ${name}`, platen.openFace.hWPerM2K, 0, 1000, 'W/(m²K)');
  within(`the emissivity of the ${name}`, platen.openFace.emissivity, 0, 1, '');
  within(`the area of the ${name} over the blank’s`, platen.areaRatio ?? 1, 1, 1000, '');
}

function checkGeometry(run: HeatRun, ids: ReadonlySet<string>): void {
  const { geometry } = run;
  if (geometry.kind === 'plane') return;
  within('the radius', geometry.radiusMm, 0.01, 1e5, 'mm');
  if (!ids.has(geometry.ofLayer))
    refuse(
      `The radius belongs to a layer “${geometry.ofLayer}” that is not there.`,
      'Name one of the layers.',
    );
  const from = run.layers.findIndex((layer) => layer.id === geometry.ofLayer);
  const inwardMm = run.layers.slice(from).reduce((sum, layer) => sum + layer.thicknessMm, 0);
  if (inwardMm > geometry.radiusMm * (1 + 1e-9))
    refuse(
      `The layers from “${geometry.ofLayer}” inwards are ${inwardMm} mm thick, more than the radius of ${geometry.radiusMm} mm.`,
      'Look over the radius and the thicknesses.',
    );
}

function checkPhase(run: HeatRun, phase: Phase, ids: ReadonlySet<string>, bound: number): void {
  const of = `of the phase “${phase.name}”`;
  within(`the time ${of}`, phase.seconds, 1e-6, longestSeconds, 's');
  for (const id of phase.layers ?? [])
    if (!ids.has(id))
      refuse(`The phase “${phase.name}” has a layer “${id}” that is not there.`, 'Name one of the layers.');
  const empty = phase.layers !== undefined && phase.layers.length === 0;
  if (empty && run.topPlaten === undefined && run.bottomPlaten === undefined)
    refuse(
      `Nothing is there in the phase “${phase.name}”.`,
      'Leave at least one layer, or give the press a platen.',
    );
  if (phase.top.kind === 'platen' && run.topPlaten === undefined)
    refuse(
      `The phase “${phase.name}” needs an upper platen that is not described.`,
      'Describe the upper platen.',
    );
  if (phase.bottom.kind === 'platen' && run.bottomPlaten === undefined)
    refuse(
      `The phase “${phase.name}” needs a lower platen that is not described.`,
      'Describe the lower platen.',
    );
  checkSide(`upper side ${of}`, phase.top, bound);
  checkSide(`lower side ${of}`, phase.bottom, bound);
}

function checkSide(name: string, side: Side, bound: number): void {
  if (side.kind === 'platen' || side.kind === 'fixed')
    within(`the contact of the ${name}`, side.contactM2KPerW ?? 0, 0, 100, 'm²K/W');
  if (side.kind === 'fixed') checkTemperatures(name, side.celsius, bound);
  if (side.kind === 'flux') {
    checkPoints(name, side.wPerM2);
    for (const flux of valuesOf(side.wPerM2)) within(`the flux of the ${name}`, flux, -1e7, 1e7, 'W/m²');
  }
  if (side.kind === 'air') {
    within(`the convection of the ${name}`, side.hWPerM2K, 0, 1e5, 'W/(m²K)');
    within(`the emissivity of the ${name}`, side.emissivity ?? 0, 0, 1, '');
    checkTemperatures(name, side.airC, bound);
    if (side.surroundingsC !== undefined) checkTemperatures(name, side.surroundingsC, bound);
  }
}

function checkTemperatures(name: string, course: Course, bound: number): void {
  checkPoints(name, course);
  for (const celsius of valuesOf(course)) {
    within(`the temperature of the ${name}`, celsius, absoluteZeroC, hottestC, '°C');
    safe(`The ${name}`, celsius, bound);
  }
}

function checkPoints(name: string, course: Course): void {
  if (typeof course !== 'object') return;
  if (course.length === 0) refuse(`The course of the ${name} has no points.`, 'Give it at least one.');
  course.forEach((point, i) => {
    if (!Number.isFinite(point.atSeconds) || (i > 0 && !(point.atSeconds > course[i - 1]!.atSeconds)))
      refuse(`The times of the ${name} do not rise.`, 'Put the points in order of time, each time once.');
  });
}

function safe(what: string, celsius: number, bound: number): void {
  if (celsius > bound)
    throw new Problem('press.unsafe', `${what} is set to ${celsius} °C, above the bound of ${bound} °C.`, {
      remedy:
        'Stay within the temperatures that the makers of ink, paper and blank give; PTFE sheets begin to give off harmful fumes from about 260 °C.',
    });
}

function within(what: string, value: number, low: number, high: number, unit: string): void {
  if (Number.isFinite(value) && value >= low && value <= high) return;
  const bounds = `${low} to ${high}${unit === '' ? '' : ` ${unit}`}`;
  refuse(
    `${what.charAt(0).toUpperCase()}${what.slice(1)} is ${value}; it must be ${bounds}.`,
    'Correct the value.',
  );
}

function whole(what: string, value: number, low: number, high: number): void {
  within(what, value, low, high, '');
  if (!Number.isInteger(value))
    refuse(`${what.charAt(0).toUpperCase()}${what.slice(1)} must be a whole number.`, 'Correct the value.');
}

function refuse(message: string, remedy: string): never {
  throw new Problem('press.invalid', message, { remedy });
}
