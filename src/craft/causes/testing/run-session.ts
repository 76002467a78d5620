import type { Random } from '#craft/numerics';
import { findCauses } from '../find-causes.js';
import type { CauseModel } from '../model.js';
import { type CostRates, costOf, nextSteps } from '../next-step.js';
import type { CaseFacts, Remedy } from '../types.js';
import { type DrawnCase, factsAtFirst } from './draw-case.js';

export interface Session {
  /** What was spent until the trouble was gone or given up. */
  readonly cost: number;
  readonly isCured: boolean;
  readonly asked: number;
  /** What was believed when the first remedy was chosen: causes, likeliest first. */
  readonly believed: readonly { readonly causeId: string; readonly chance: number }[];
}

/** Follows the advice step by step; the truth answers and decides which remedies help. */
export function followAdvice(
  model: CauseModel,
  drawn: DrawnCase,
  rates: CostRates,
  random: Random,
  mayAsk = true,
): Session {
  let facts: CaseFacts = factsAtFirst(model, drawn);
  let present = [...drawn.causeIds];
  let cost = 0;
  let asked = 0;
  let believed: Session['believed'] | null = null;
  for (let turn = 0; turn < 60; turn += 1) {
    const { steps, isExhausted } = nextSteps(model, facts, rates);
    const step = steps.find(({ kind }) => mayAsk || kind === 'remedy');
    if (isExhausted || step === undefined) break;
    cost += costOf(step.cost, rates);
    if (step.kind !== 'remedy') {
      asked += 1;
      facts = { ...facts, answers: { ...facts.answers, [step.id]: drawn.answers[step.id]! } };
      continue;
    }
    believed ??= findCauses(model, facts).ranked;
    const remedy = model.book.remedies.find(({ id }) => id === step.id)!;
    present = stillThere(present, remedy, random);
    if (present.length === 0) return { cost, isCured: true, asked, believed };
    facts = { ...facts, tried: [...facts.tried, remedy.id] };
  }
  believed ??= findCauses(model, facts).ranked;
  return { cost: cost + rates.giveUp, isCured: false, asked, believed };
}

/** Walks down a list of remedies whatever it learns, until the trouble is gone or as much is spent as help would cost. */
export function followList(
  remedies: readonly Remedy[],
  drawn: DrawnCase,
  rates: CostRates,
  random: Random,
): { cost: number; isCured: boolean } {
  let present = [...drawn.causeIds];
  let cost = 0;
  for (const remedy of remedies) {
    const own = costOf(remedy.cost, rates);
    if (cost + own > rates.giveUp) break;
    cost += own;
    present = stillThere(present, remedy, random);
    if (present.length === 0) return { cost, isCured: true };
  }
  return { cost: cost + rates.giveUp, isCured: false };
}

function stillThere(present: readonly string[], remedy: Remedy, random: Random): string[] {
  return present.filter((id) => random.uniform() >= (remedy.cures[id] ?? 0));
}
