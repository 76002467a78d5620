import { type CauseModel, type EvidenceLine, evidenceOf } from './model.js';
import type { Area, CaseFacts } from './types.js';
import { marginals, type Weighed, weigh } from './worlds.js';

/** One piece of evidence and what it does to a cause. */
export interface Because {
  readonly kind: EvidenceLine['kind'];
  readonly id: string;
  /** How much ln odds of the cause would change if this evidence were taken away, turned round: + speaks for it. */
  readonly logOdds: number;
}

export interface RankedCause {
  readonly causeId: string;
  readonly name: string;
  readonly area: Area;
  readonly reason: string;
  /** Chance that it plays a part. */
  readonly chance: number;
  /** Before any evidence. */
  readonly before: number;
  /** What speaks most for and against it, strongest first. */
  readonly because: readonly Because[];
}

export interface CausesFound {
  /** Every cause of the book, likeliest first. */
  readonly ranked: readonly RankedCause[];
  /** Chance that it is none of them. */
  readonly noneOfThese: number;
  /** Likeliest pairs of causes at work together. */
  readonly pairs: readonly { readonly causeIds: readonly [string, string]; readonly chance: number }[];
  /** ln chance of all this evidence under the book; compare two books by it. */
  readonly logEvidence: number;
  readonly sentence: string;
}

const explained = 6;
const reasons = 8;

/** From facts to causes: exact over no, one and two of them. */
export function findCauses(model: CauseModel, facts: CaseFacts): CausesFound {
  const evidence = evidenceOf(model, facts);
  const after = posterior(model, evidence);
  const size = model.book.causes.length;
  const chances = marginals(after, size);
  const before = marginals(posterior(model, []), size);
  const leftOut = withoutEach(model, evidence).map((weighed) => marginals(weighed, size));
  const order = [...chances.keys()].sort((a, b) => chances[b]! - chances[a]! || a - b);
  const ranked = order.map((i, rank): RankedCause => {
    const { id, name, area, reason } = model.book.causes[i]!;
    const because =
      rank < explained
        ? whatMoved(
            evidence,
            chances[i]!,
            leftOut.map((left) => left[i]!),
          )
        : [];
    return { causeId: id, name, area, reason, chance: chances[i]!, before: before[i]!, because };
  });
  const pairs = after.worlds
    .map((world, w) => ({ world, chance: after.chances[w]! }))
    .filter(({ world, chance }) => world.length === 2 && chance > 0.01)
    .sort((a, b) => b.chance - a.chance)
    .slice(0, 5)
    .map(({ world, chance }) => ({
      causeIds: [model.book.causes[world[0]!]!.id, model.book.causes[world[1]!]!.id] as const,
      chance,
    }));
  const noneOfThese = after.chances[0]!;
  return {
    ranked,
    noneOfThese,
    pairs,
    logEvidence: after.logEvidence,
    sentence: sentenceOf(ranked, noneOfThese, evidence.length),
  };
}

/** The chances of all worlds under these lines of evidence. */
export function posterior(model: CauseModel, evidence: readonly EvidenceLine[]): Weighed {
  return weigh(
    model.worlds,
    model.logPrior,
    evidence.map((line) => line.logLikelihood),
  );
}

/** The posterior with each line taken away in turn. */
function withoutEach(model: CauseModel, evidence: readonly EvidenceLine[]): Weighed[] {
  const all = Float64Array.from(model.logPrior);
  for (const { logLikelihood } of evidence)
    for (let w = 0; w < all.length; w += 1) all[w] = all[w]! + logLikelihood[w]!;
  return evidence.map((line) => {
    const without = all.map((sum, w) => {
      const own = line.logLikelihood[w]!;
      if (own > Number.NEGATIVE_INFINITY) return sum - own;
      // −∞ cannot be taken back: add the others up.
      return evidence.reduce(
        (rest, e) => (e === line ? rest : rest + e.logLikelihood[w]!),
        model.logPrior[w]!,
      );
    });
    return weigh(model.worlds, without, []);
  });
}

/** Leave one out: what the cause's ln odds owe to each line, all others kept. */
function whatMoved(evidence: readonly EvidenceLine[], chance: number, without: readonly number[]): Because[] {
  return evidence
    .map(({ kind, id }, e) => ({ kind, id, logOdds: logOdds(chance) - logOdds(without[e]!) }))
    .filter((because) => Math.abs(because.logOdds) > 0.05)
    .sort((a, b) => Math.abs(b.logOdds) - Math.abs(a.logOdds))
    .slice(0, reasons);
}

/** Kept finite: what is excluded counts as one in 10⁹. */
function logOdds(chance: number): number {
  const held = Math.min(Math.max(chance, 1e-9), 1 - 1e-9);
  return Math.log(held / (1 - held));
}

function sentenceOf(ranked: readonly RankedCause[], noneOfThese: number, evidence: number): string {
  const [first, second] = ranked;
  if (evidence === 0 || first === undefined) return 'Nothing is known yet: say what it looks like.';
  if (noneOfThese > 0.5)
    return 'Nothing in the book explains this well: look again, or write down what it was.';
  const percent = Math.round(first.chance * 100);
  if (first.chance > 0.8) return `Very likely: ${first.name} (${percent} %).`;
  const both = second === undefined ? '' : `, or ${second.name} (${Math.round(second.chance * 100)} %)`;
  return `${first.chance > 0.5 ? 'Probably' : 'Perhaps'} ${first.name} (${percent} %)${both}.`;
}
