import type { World } from './worlds.js';

/** A remedy as numbers: what it costs, and the chance that it ends each cause. */
export interface RepairStep {
  readonly cost: number;
  /** By the cause's number; 0 where it does nothing. */
  readonly cures: ArrayLike<number>;
}

export interface RepairPlan {
  /** Numbers of the steps, in the order to take them until the trouble is gone. */
  readonly order: readonly number[];
  /** Expected cost until it is gone or given up, with giving up counted. */
  readonly expectedCost: number;
  /** Chance that the order ends the trouble. */
  readonly chanceOfCure: number;
}

/**
 * Expected cost of repair: steps are taken one after the other until the trouble is gone; each is chosen by chance of
 * curing over cost, which is the best order for a single fault with independent steps (Kadane & Simon 1977; Heckerman,
 * Breese & Rommelse, Decision-theoretic troubleshooting, Comm. ACM 38(3), 1995), and a sound rule of thumb for two.
 * ECR = Σ_k cost_k · P(not gone before step k) + P(never gone) · giveUpCost.
 * A step that cures one of two causes counts half for the choice; the trouble is gone only with both.
 * @param giveUpCost of calling for help; a step that costs more than it can save is not taken. Infinity: take all.
 * @param first a step that is to come first, whatever its merit
 */
export function repairPlan(
  worlds: readonly World[],
  chances: ArrayLike<number>,
  steps: readonly RepairStep[],
  giveUpCost: number,
  first?: number,
): RepairPlan {
  const left = new Set(steps.keys());
  const order: number[] = [];
  const state = unsolved(worlds, chances);
  let expectedCost = 0;
  for (;;) {
    const still = state.left();
    if (still <= 1e-9 || left.size === 0) break;
    let best = -1;
    let bestMerit = 0;
    if (order.length === 0 && first !== undefined) best = first;
    else {
      for (const s of left) {
        const step = steps[s]!;
        const merit = state.progress(step) / Math.max(step.cost, 1e-9);
        if (merit > bestMerit + 1e-15) {
          best = s;
          bestMerit = merit;
        }
      }
      if (best < 0 || bestMerit * giveUpCost < still) break;
    }
    expectedCost += steps[best]!.cost * still;
    state.take(steps[best]!);
    left.delete(best);
    order.push(best);
  }
  const never = state.left();
  if (never > 1e-9) expectedCost += never * giveUpCost;
  return { order, expectedCost, chanceOfCure: Math.max(0, 1 - never) };
}

/** Expected cost of a given order of steps, all of them taken while the trouble lasts. */
export function costOfOrder(
  worlds: readonly World[],
  chances: ArrayLike<number>,
  steps: readonly RepairStep[],
  order: readonly number[],
): { expectedCost: number; neverGone: number } {
  const state = unsolved(worlds, chances);
  let expectedCost = 0;
  for (const s of order) {
    expectedCost += steps[s]!.cost * state.left();
    state.take(steps[s]!);
  }
  return { expectedCost, neverGone: state.left() };
}

/** The chance still unsolved, split by which causes remain; a world of two may lose one and keep the other. */
function unsolved(worlds: readonly World[], chances: ArrayLike<number>) {
  type Masses = Map<string, { readonly causes: World; mass: number }>;
  const add = (into: Masses, causes: World, mass: number): void => {
    if (mass <= 0) return;
    const key = causes.join();
    const known = into.get(key);
    if (known === undefined) into.set(key, { causes, mass });
    else known.mass += mass;
  };
  let masses: Masses = new Map();
  worlds.forEach((world, w) => {
    add(masses, world, chances[w]!);
  });
  const sum = (): number => [...masses.values()].reduce((all, { mass }) => all + mass, 0);
  let total = sum();

  return {
    left: () => total,
    /** Chance of ending the trouble, with half of the chance of ending one cause of two. */
    progress(step: RepairStep): number {
      let gain = 0;
      for (const { causes, mass } of masses.values()) {
        let share = 0;
        for (const cause of causes) share += step.cures[cause]!;
        if (causes.length > 0) gain += (mass * share) / causes.length;
      }
      return gain;
    },
    take(step: RepairStep): void {
      const after: Masses = new Map();
      for (const { causes, mass } of masses.values()) {
        if (causes.every((cause) => step.cures[cause] === 0)) {
          add(after, causes, mass);
          continue;
        }
        // Every way of which causes stay; none staying is the cure.
        for (let bits = 1; bits < 1 << causes.length; bits += 1) {
          const stay = causes.filter((_, i) => bits & (1 << i));
          let chance = mass;
          causes.forEach((cause, i) => {
            chance *= bits & (1 << i) ? 1 - step.cures[cause]! : step.cures[cause]!;
          });
          add(after, stay, chance);
        }
      }
      masses = after;
      total = sum();
    },
  };
}
