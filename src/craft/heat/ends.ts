import { conductance } from './conductance.js';
import { courseAt } from './course.js';
import type { Platen, Side } from './types.js';

/** What an end tells of itself at one temperature: watts into the node, and their change per kelvin of the node. */
export interface EndFlow {
  wattsPerM2: number;
  slope: number;
  /** Temperature of the face itself. */
  faceC: number;
}

/** Where heat enters or leaves the chain of nodes other than along it. */
export interface End {
  readonly node: number;
  readonly account: 'heater' | 'platen-loss' | 'top' | 'bottom';
  evaluate(nodeC: number, seconds: number, into: EndFlow): void;
}

/** Stefan–Boltzmann constant, W/(m²K⁴): exact since the SI of 2019 (CODATA 2018). */
export const stefanBoltzmann = 5.670374419e-8;
export const zeroCelsiusK = 273.15;

export function fixedEnd(
  node: number,
  account: End['account'],
  side: Extract<Side, { kind: 'fixed' }>,
  halfM2KPerW: number,
  contactM2KPerW: number,
  area: number,
): End {
  const celsius = courseAt(side.celsius);
  const joint = conductance(halfM2KPerW + contactM2KPerW / area);
  return {
    node,
    account,
    evaluate(nodeC, seconds, into) {
      into.wattsPerM2 = joint * (celsius(seconds) - nodeC);
      into.slope = -joint;
      into.faceC = nodeC + into.wattsPerM2 * halfM2KPerW;
    },
  };
}

export function fluxEnd(
  node: number,
  account: End['account'],
  side: Extract<Side, { kind: 'flux' }>,
  halfM2KPerW: number,
  area: number,
): End {
  const flux = courseAt(side.wPerM2);
  return {
    node,
    account,
    evaluate(nodeC, seconds, into) {
      into.wattsPerM2 = flux(seconds) * area;
      into.slope = 0;
      into.faceC = nodeC + into.wattsPerM2 * halfM2KPerW;
    },
  };
}

/**
 * Convection and grey-body radiation to large surroundings: q = h(T∞ − Ts) + εσ(Tsur⁴ − Ts⁴). The face's own
 * temperature is found by Newton's method, as it lies half a cell from the node.
 */
export function airEnd(
  node: number,
  account: End['account'],
  side: Extract<Side, { kind: 'air' }>,
  halfM2KPerW: number,
  area: number,
): End {
  const air = courseAt(side.airC);
  const surroundings = side.surroundingsC === undefined ? air : courseAt(side.surroundingsC);
  const convection = side.hWPerM2K * area;
  const radiation = (side.emissivity ?? 0) * stefanBoltzmann * area;
  return {
    node,
    account,
    evaluate(nodeC, seconds, into) {
      const airC = air(seconds);
      const far = (surroundings(seconds) + zeroCelsiusK) ** 4;
      let faceC = nodeC;
      let watts = 0;
      let loss = 0;
      for (let round = 0; round < 30; round += 1) {
        const kelvin = faceC + zeroCelsiusK;
        watts = convection * (airC - faceC) + radiation * (far - kelvin ** 4);
        loss = convection + 4 * radiation * kelvin ** 3;
        const step = (faceC - nodeC - halfM2KPerW * watts) / (1 + halfM2KPerW * loss);
        faceC -= step;
        if (Math.abs(step) < 1e-11 * (1 + Math.abs(faceC))) break;
      }
      into.wattsPerM2 = watts;
      into.slope = -loss / (1 + halfM2KPerW * loss);
      into.faceC = faceC;
    },
  };
}

/** The heater of a platen, its losses, and its bare face while it touches nothing. */
export function platenEnds(node: number, platen: Platen, roomC: number, open: boolean): readonly End[] {
  const ratio = platen.areaRatio ?? 1;
  const face = { kind: 'air', airC: roomC, ...platen.openFace } as const;
  const bare = airEnd(node, 'platen-loss', face, 0, ratio);
  const backLoss = platen.lossWPerM2K * ratio;
  // What holds the set temperature with the press open is always given, so that it waits without droop.
  const flow: EndFlow = { wattsPerM2: 0, slope: 0, faceC: 0 };
  bare.evaluate(platen.setC, 0, flow);
  const hold = backLoss * (platen.setC - roomC) - flow.wattsPerM2;
  const most = platen.maxWPerM2 * ratio;
  const gain = most / platen.bandK;
  const heater: End = {
    node,
    account: 'heater',
    evaluate(nodeC, _seconds, into) {
      const wanted = hold + gain * (platen.setC - nodeC);
      const within = wanted > 0 && wanted < most;
      into.wattsPerM2 = within ? wanted : wanted <= 0 ? 0 : most;
      into.slope = within ? -gain : 0;
      into.faceC = nodeC;
    },
  };
  const back: End = {
    node,
    account: 'platen-loss',
    evaluate(nodeC, _seconds, into) {
      into.wattsPerM2 = backLoss * (roomC - nodeC);
      into.slope = -backLoss;
      into.faceC = nodeC;
    },
  };
  return open ? [heater, back, bare] : [heater, back];
}
