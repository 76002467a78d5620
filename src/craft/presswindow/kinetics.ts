import { type DoseKinetics, doseRate, priorKinetics } from '#craft/heat';
import type { PressStep } from './types.js';

/**
 * Before any coupon is pressed at two temperatures: what `heat` assumes too (`priorKinetics`), log-normal, within bounds
 * that any transfer keeps.
 */
export const activationPrior = {
  medianKJPerMol: priorKinetics.activationKJPerMol,
  sdLog: Math.log(priorKinetics.spread),
  lowKJPerMol: 15,
  highKJPerMol: 300,
} as const;

/**
 * Dose goes as pressure to this power. Nothing published was found: contact improves with pressure, by less than in
 * proportion, so a small positive power is guessed and left wide.
 */
export const pressureExponentPrior = { mean: 0.2, sd: 0.3 } as const;

/** How the dye's place warms up after the press closes: towards the platen's temperature, first order. */
export interface WarmUp {
  readonly timeConstantSeconds: number;
  readonly startC: number;
}

export interface DoseLaw {
  readonly activationKJPerMol: number;
  readonly pressureExponent: number;
  readonly referenceC: number;
  readonly referencePressureBar: number;
  readonly warmUp?: WarmUp;
}

/**
 * Where nobody gives a warm-up, the dye's place is taken to warm up within about this share of the coupons' mean time:
 * a guess, log-normal and wide; the coupons tell more, as short ones then come out paler than a plain rise has it. Thin
 * things are pressed short and thick ones long, hence a share. Blanks start from the room.
 */
export const warmUpPrior = { medianShare: 0.03, sdLog: Math.log(2.2), startC: 25 } as const;

/** ln of the equivalent seconds at the reference temperature and pressure. */
export const logDose = (step: PressStep, law: DoseLaw): number => logDoseOver(step, law)(step.dwellSeconds);

/** The same as a function of time, for many times at one temperature and pressure. */
export function logDoseOver(
  { platenC, pressureBar }: Omit<PressStep, 'dwellSeconds'>,
  law: DoseLaw,
): (seconds: number) => number {
  const pressure =
    pressureBar === undefined ? 0 : law.pressureExponent * Math.log(pressureBar / law.referencePressureBar);
  const offset = Math.log(doseRate(platenC, law)) + pressure;
  if (!law.warmUp) return (seconds) => Math.log(seconds) + offset;
  const hot = hotSeconds(platenC, law.warmUp, law);
  return (seconds) => Math.log(hot(seconds)) + offset;
}

/** Up to here, in time constants, warming is followed; then the place is as hot as the platen within half a degree. */
const [followed, perConstant] = [6, 5];

/**
 * Seconds at the platen's own temperature that are worth a time of warming up: Simpson's rule, then chords. Within half a
 * percent from two time constants on; a fifth too long at half of one, where next to nothing has arrived yet.
 */
function hotSeconds(
  platenC: number,
  { timeConstantSeconds, startC }: WarmUp,
  law: DoseKinetics,
): (seconds: number) => number {
  const kinetics = { activationKJPerMol: law.activationKJPerMol, referenceC: platenC };
  const count = followed * perConstant;
  const shares = warmingAt.map((left) => doseRate(platenC - (platenC - startC) * left, kinetics));
  const table = new Float64Array(count + 1);
  for (let i = 0; i < count; i += 1)
    table[i + 1] =
      table[i]! + (shares[2 * i]! + 4 * shares[2 * i + 1]! + shares[2 * i + 2]!) / (6 * perConstant);
  return (seconds) => {
    const at = (seconds / timeConstantSeconds) * perConstant;
    if (at >= count) return seconds - timeConstantSeconds * (followed - table[count]!);
    const i = Math.floor(at);
    return timeConstantSeconds * (table[i]! + (at - i) * (table[i + 1]! - table[i]!));
  };
}

/** Share of the step to the platen's temperature still to come, at the ends and middles of the table's cells. */
const warmingAt = Array.from({ length: 2 * followed * perConstant + 1 }, (_, i) =>
  Math.exp(-i / (2 * perConstant)),
);

/** Time at which a step's temperature and pressure give a dose; found by bisection in ln t. */
export function secondsForLogDose(
  wanted: number,
  at: { readonly platenC: number; readonly pressureBar?: number },
  law: DoseLaw,
): number {
  const over = logDoseOver(at, law);
  if (!law.warmUp) return Math.exp(wanted - over(1));
  const of = (logSeconds: number): number => over(Math.exp(logSeconds));
  let [low, high] = [-5, 12];
  for (let i = 0; i < 40; i += 1) {
    const middle = (low + high) / 2;
    if (of(middle) < wanted) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

/** Temperature at which a step's time and pressure give a dose: sought between 100 and 300 °C, NaN outside. */
export function platenForLogDose(
  wanted: number,
  at: { readonly dwellSeconds: number; readonly pressureBar?: number },
  law: DoseLaw,
): number {
  const of = (platenC: number): number => logDose({ ...at, platenC }, law);
  let [low, high] = [100, 300];
  let [ofLow, ofHigh] = [of(low), of(high)];
  if (ofLow > wanted || ofHigh < wanted) return Number.NaN;
  // False position as Illinois has it (Dowell & Jarratt, BIT 11, 1971): the rate's logarithm is nearly straight.
  let side = 0;
  for (let i = 0; i < 40 && high - low > 1e-7; i += 1) {
    const at = low + ((high - low) * (wanted - ofLow)) / (ofHigh - ofLow);
    const found = of(at);
    if (Math.abs(found - wanted) < 1e-10) return at;
    if (found < wanted) {
      [low, ofLow] = [at, found];
      if (side < 0) ofHigh = wanted + 0.5 * (ofHigh - wanted);
      side = -1;
    } else {
      [high, ofHigh] = [at, found];
      if (side > 0) ofLow = wanted - 0.5 * (wanted - ofLow);
      side = 1;
    }
  }
  return (low + high) / 2;
}
