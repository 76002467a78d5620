import { posterior } from './find-causes.js';
import { type CauseModel, choicesInWorlds, evidenceOf } from './model.js';
import { type RepairStep, repairPlan } from './repair-plan.js';
import type { CaseFacts, Cost, FoundOrNot, Question } from './types.js';
import { valueOfTest } from './value-of-test.js';
import type { World } from './worlds.js';

/** What an hour, a unit of money and a blank are worth against each other. */
export interface CostRates {
  readonly perMinute: number;
  readonly perMoney: number;
  readonly perBlank: number;
  /** Of being asked or told anything at all. */
  readonly perStep: number;
  /** Of giving up: asking the maker, ordering anew. */
  readonly giveUp: number;
}

/** A minute counts 0.4, a blank 4 (ten minutes), any step 0.2, a call for help 100: a small studio, from memory. */
export const usualRates: CostRates = { perMinute: 0.4, perMoney: 1, perBlank: 4, perStep: 0.2, giveUp: 100 };

export function costOf(cost: Cost, rates: CostRates): number {
  const spent = cost.minutes * rates.perMinute + cost.money * rates.perMoney + cost.blanks * rates.perBlank;
  return rates.perStep + spent;
}

export interface NextStep {
  readonly kind: 'question' | 'setting' | 'test' | 'remedy';
  readonly id: string;
  readonly text: string;
  readonly how: string;
  readonly cost: Cost;
  readonly cautions: readonly string[];
  /** Expected cost until the trouble is gone if this comes first, with its own cost. */
  readonly expectedCost: number;
  /** Expected cost saved against going straight on with the remedies; never counted below 0 for a remedy. */
  readonly saves: number;
  /** Remedy: chance that it helps. Else: what the answer tells of the causes, bit. */
  readonly chance: number | null;
  readonly bits: number | null;
}

export interface NextSteps {
  /** Best first. Empty: nothing in the book is worth doing. */
  readonly steps: readonly NextStep[];
  /** Expected cost of going straight on with the remedies, best order. */
  readonly expectedCost: number;
  /** The remedies in that order. */
  readonly plan: readonly { readonly remedyId: string; readonly chanceSoFar: number }[];
  readonly chanceOfCure: number;
  /** Giving up is cheaper than anything that is left. */
  readonly isExhausted: boolean;
}

/** Worlds that matter for choosing: the likeliest, together this share, and no more than this many. */
const keptShare = 0.995;
const keptWorlds = 250;
const keptRemedies = 24;
const remediesTried = 4;

/**
 * What to do next: for every question, test and remedy the expected cost until the trouble is gone if it comes first
 * and remedies follow in their best order; the cheapest wins (one step ahead, as Heckerman, Breese & Rommelse 1995).
 */
export function nextSteps(model: CauseModel, facts: CaseFacts, rates: CostRates = usualRates): NextSteps {
  const { worlds, chances } = likeliest(model, facts);
  const remedies = usefulRemedies(model, facts, worlds, chances, rates);
  const steps = remedies.map(({ step }) => step);
  const cost = (now: ArrayLike<number>, first?: number) =>
    repairPlan(worlds, now, steps, rates.giveUp, first);
  const straight = cost(chances);
  const found: NextStep[] = [];

  const candidates = new Set([...straight.order.slice(0, remediesTried)]);
  for (const s of candidates) {
    const { remedy } = remedies[s]!;
    const { expectedCost } = cost(chances, s);
    found.push({
      kind: 'remedy',
      id: remedy.id,
      text: remedy.name,
      how: remedy.how,
      cost: remedy.cost,
      cautions: remedy.cautions,
      expectedCost,
      saves: Math.max(0, straight.expectedCost - expectedCost),
      chance: repairPlan(worlds, chances, [steps[s]!], Number.POSITIVE_INFINITY).chanceOfCure,
      bits: null,
    });
  }
  for (const question of model.book.questions) {
    if (!isWorthAsking(question, facts, model)) continue;
    const perWorld = choicesInWorlds(model.book, worlds, question);
    const likelihoods = question.choices.map((_, a) => perWorld.map((each) => each[a]!));
    const value = valueOfTest(chances, likelihoods, (after) => -cost(after).expectedCost, false);
    const expectedCost = costOf(question.cost, rates) - value.with;
    found.push({
      kind: question.kind,
      id: question.id,
      text: question.text,
      how: question.how,
      cost: question.cost,
      cautions: question.cautions,
      expectedCost,
      saves: straight.expectedCost - expectedCost,
      chance: null,
      bits: value.bits,
    });
  }
  found.sort((a, b) => a.expectedCost - b.expectedCost);
  return {
    steps: found,
    expectedCost: straight.expectedCost,
    plan: soFar(worlds, chances, steps, straight.order).map((chanceSoFar, k) => ({
      remedyId: remedies[straight.order[k]!]!.remedy.id,
      chanceSoFar,
    })),
    chanceOfCure: straight.chanceOfCure,
    isExhausted: straight.order.length === 0 && (found.length === 0 || found[0]!.saves <= 0),
  };
}

function likeliest(model: CauseModel, facts: CaseFacts): { worlds: World[]; chances: Float64Array } {
  const after = posterior(model, evidenceOf(model, facts));
  const order = [...after.chances.keys()].sort((a, b) => after.chances[b]! - after.chances[a]!);
  const kept: number[] = [];
  let sum = 0;
  for (const w of order) {
    if (kept.length >= keptWorlds || sum >= keptShare) break;
    kept.push(w);
    sum += after.chances[w]!;
  }
  return {
    worlds: kept.map((w) => after.worlds[w]!),
    chances: Float64Array.from(kept, (w) => after.chances[w]! / sum),
  };
}

function usefulRemedies(
  model: CauseModel,
  facts: CaseFacts,
  worlds: readonly World[],
  chances: Float64Array,
  rates: CostRates,
) {
  const marginal = new Float64Array(model.book.causes.length);
  worlds.forEach((world, w) => {
    for (const cause of world) marginal[cause] = marginal[cause]! + chances[w]!;
  });
  return model.book.remedies
    .filter((remedy) => !facts.tried.includes(remedy.id))
    .map((remedy) => {
      const cures = Float64Array.from(model.book.causes, ({ id }) => remedy.cures[id] ?? 0);
      const step: RepairStep = { cost: costOf(remedy.cost, rates), cures };
      const chance = cures.reduce((sum, cure, i) => sum + cure * marginal[i]!, 0);
      return { remedy, step, chance, merit: chance / Math.max(step.cost, 1e-9) };
    })
    .filter(({ chance }) => chance > 0.002)
    .sort((a, b) => b.merit - a.merit)
    .slice(0, keptRemedies);
}

/** Asked already: no. About a finding: only where that finding is there. */
function isWorthAsking(question: Question, facts: CaseFacts, model: CauseModel): boolean {
  if (Object.hasOwn(facts.answers, question.id)) return false;
  if (question.about === null) return true;
  const found = facts.findings.find(({ id }) => id === question.about);
  return found !== undefined && isThere(found, model);
}

function isThere(found: FoundOrNot, model: CauseModel): boolean {
  if ('seen' in found) return found.seen;
  const threshold = model.book.findings.find(({ id }) => id === found.id)?.threshold ?? 0;
  return found.strength > threshold;
}

function soFar(
  worlds: readonly World[],
  chances: Float64Array,
  steps: readonly RepairStep[],
  order: readonly number[],
): number[] {
  return order.map((_, k) => {
    const taken = order.slice(0, k + 1).map((s) => steps[s]!);
    return repairPlan(worlds, chances, taken, Number.POSITIVE_INFINITY).chanceOfCure;
  });
}
