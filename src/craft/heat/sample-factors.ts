import type { Random } from '#craft/numerics';
import { type DoseKinetics, priorKinetics } from './dose.js';
import { jointOf, type RunFactors } from './factors.js';
import type { HeatRun } from './types.js';

/** Standard deviations of what is not known. Those of factors are of their natural logarithms: 0.1 is about 10 %. */
export interface Spreads {
  readonly contactsLog: number;
  readonly conductivityLog: number;
  readonly heatCapacityLog: number;
  /** The platen's true temperature about the one it shows; what is pressed on one press shares it. */
  readonly platenK: number;
  readonly activationLog: number;
  /** How much more or less dose one coating wants than another. */
  readonly coatingLog: number;
}

/** Judgements, not measurements, but for the activation energy's (see dose.ts). Fits replace them. */
export const usualSpreads: Spreads = {
  contactsLog: 0.5,
  conductivityLog: 0.15,
  heatCapacityLog: 0.05,
  platenK: 4,
  activationLog: Math.log(priorKinetics.spread),
  coatingLog: 0.2,
};

/** Joints that were fitted, as factors on the runs' own figures, with the spread that is left (`fitContacts`). */
export type FittedContacts = Readonly<Record<string, { readonly factor: number; readonly sdLog: number }>>;

/** The best guess: fitted joints where there are any, all else as given. */
export function centralFactors(fitted: FittedContacts): RunFactors {
  return {
    contacts: Object.fromEntries(Object.entries(fitted).map(([joint, { factor }]) => [joint, factor])),
  };
}

/** One world that might be. Joints and materials of one name are one thing in all the runs. */
export function sampleFactors(
  runs: readonly HeatRun[],
  spreads: Spreads,
  fitted: FittedContacts,
  random: Random,
): RunFactors {
  const layers = runs.flatMap((run) => run.layers);
  const joints = [...new Set(layers.map(jointOf))];
  const materials = [...new Set(layers.map((layer) => layer.material.id))];
  const contacts = Object.fromEntries(
    joints.map((joint) => {
      const { factor, sdLog } = fitted[joint] ?? { factor: 1, sdLog: spreads.contactsLog };
      return [joint, factor * logNormal(random, sdLog)];
    }),
  );
  const each = (sd: number): Record<string, number> =>
    Object.fromEntries(materials.map((id) => [id, logNormal(random, sd)]));
  return {
    contacts,
    conductivity: each(spreads.conductivityLog),
    heatCapacity: each(spreads.heatCapacityLog),
    platenShiftK: spreads.platenK * random.normal(),
  };
}

export function sampleKinetics(kinetics: DoseKinetics, spreads: Spreads, random: Random): DoseKinetics {
  return {
    ...kinetics,
    activationKJPerMol: kinetics.activationKJPerMol * logNormal(random, spreads.activationLog),
  };
}

/** What is one piece's own, and not shared with other runs: standard deviations of logarithms. */
export interface OwnSpreads {
  /** Of thicknesses that nobody measured, by layer id. */
  readonly thickness?: Readonly<Record<string, number>>;
  /** How much its joints differ from those of another blank on the same press: flatness, roughness, felt. */
  readonly contactsLog?: number;
}

/** The same world with what is one run's own drawn on top. */
export function withOwn(
  factors: RunFactors,
  { thickness = {}, contactsLog = 0 }: OwnSpreads,
  random: Random,
): RunFactors {
  const thick = Object.entries(thickness).filter(([, sd]) => sd > 0);
  const each = (entries: readonly (readonly [string, number])[]): Record<string, number> =>
    Object.fromEntries(entries);
  return {
    ...factors,
    ...(thick.length === 0 ? {} : { thickness: each(thick.map(([id, sd]) => [id, logNormal(random, sd)])) }),
    ...(contactsLog === 0
      ? {}
      : {
          contacts: each(
            Object.entries(factors.contacts ?? {}).map(([joint, factor]) => [
              joint,
              factor * logNormal(random, contactsLog),
            ]),
          ),
        }),
  };
}

/** A factor whose logarithm is normal with this standard deviation. */
export const logNormal = (random: Random, sdLog: number): number => Math.exp(sdLog * random.normal());

/** The value below which a share of the (rising) values lies. */
export function quantile(rising: ArrayLike<number>, share: number): number {
  return rising[Math.min(rising.length - 1, Math.floor(share * rising.length))]!;
}
