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
  const acts = steps.map(sparse);
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
        const merit = state.progress(acts[s]!) / Math.max(steps[s]!.cost, 1e-9);
        if (merit > bestMerit + 1e-15) {
          best = s;
          bestMerit = merit;
        }
      }
      if (best < 0 || bestMerit * giveUpCost < still) break;
    }
    expectedCost += steps[best]!.cost * still;
    state.take(acts[best]!);
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
    state.take(sparse(steps[s]!));
  }
  return { expectedCost, neverGone: state.left() };
}

/** What a step does, without the causes it does nothing to. */
type Act = readonly { readonly cause: number; readonly cure: number }[];

function sparse(step: RepairStep): Act {
  const act: { cause: number; cure: number }[] = [];
  for (let cause = 0; cause < step.cures.length; cause += 1) {
    const cure = step.cures[cause]!;
    if (cure > 0) act.push({ cause, cure });
  }
  return act;
}

/** The chance still unsolved, split by which causes remain; a world of two may lose one and keep the other. */
function unsolved(worlds: readonly World[], chances: ArrayLike<number>) {
  const size = 1 + worlds.reduce((most, world) => Math.max(most, ...world), -1);
  let none = 0;
  const single = new Float64Array(size);
  const pairs: { readonly a: number; readonly b: number; mass: number }[] = [];
  worlds.forEach((world, w) => {
    const mass = chances[w]!;
    if (!(mass > 0)) return;
    if (world.length > 2) throw new RangeError('A plan of repair looks at two causes at most.');
    if (world.length === 0) none += mass;
    else if (world.length === 1) single[world[0]!] = single[world[0]!]! + mass;
    else pairs.push({ a: world[0]!, b: world[1]!, mass });
  });
  /** For each cause: chance that it alone remains, and half of the chance that it does so with another. */
  const weight = new Float64Array(size);
  const cures = new Float64Array(size);
  let total = 0;
  const settle = (): void => {
    total = none;
    for (let i = 0; i < size; i += 1) {
      weight[i] = single[i]!;
      total += single[i]!;
    }
    for (const { a, b, mass } of pairs) {
      weight[a] = weight[a]! + mass / 2;
      weight[b] = weight[b]! + mass / 2;
      total += mass;
    }
  };
  settle();

  return {
    left: () => total,
    /** Chance of ending the trouble, with half of the chance of ending one cause of two. */
    progress(act: Act): number {
      let gain = 0;
      for (const { cause, cure } of act) if (cause < size) gain += weight[cause]! * cure;
      return gain;
    },
    take(act: Act): void {
      cures.fill(0);
      for (const { cause, cure } of act) {
        if (cause >= size) continue;
        cures[cause] = cure;
        single[cause] = single[cause]! * (1 - cure);
      }
      for (const pair of pairs) {
        const cureA = cures[pair.a]!;
        const cureB = cures[pair.b]!;
        if (cureA === 0 && cureB === 0) continue;
        single[pair.a] = single[pair.a]! + pair.mass * (1 - cureA) * cureB;
        single[pair.b] = single[pair.b]! + pair.mass * cureA * (1 - cureB);
        pair.mass *= (1 - cureA) * (1 - cureB);
      }
      settle();
    },
  };
}
