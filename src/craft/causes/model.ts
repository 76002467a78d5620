import { Problem } from '#craft/problem';
import { choiceChances, choiceWeights } from './answer-likelihood.js';
import { strongestShows, type Way } from './noisy-or.js';
import { measuredStrength, type SoftEvidence, seenByEye } from './strength.js';
import type { Answer, CaseFacts, Cause, CauseBook, Finding, FoundOrNot, Question, Remedy } from './types.js';
import { type World, worldsOf } from './worlds.js';

/** What one piece of evidence says of each world. */
export interface EvidenceLine {
  readonly kind: 'finding' | 'answer' | 'tried';
  readonly id: string;
  /** ln chance of it in each world of the model. */
  readonly logLikelihood: Float64Array;
}

/** A book with its worlds: ready to be asked about many cases. */
export interface CauseModel {
  readonly book: CauseBook;
  readonly worlds: readonly World[];
  readonly logPrior: Float64Array;
}

/**
 * The book as a two-layer network: independent causes, findings and answers that depend on the causes present. A piece
 * has no, one or (`atMost` 2) two of them; what more there might be is left out, and the rest made to sum to 1.
 */
export function causeModel(book: CauseBook, atMost = 2): CauseModel {
  const worlds = worldsOf(book.causes.length, atMost);
  const logOdds = book.causes.map(({ per1000 }) => Math.log(per1000 / (1000 - per1000)));
  const logs = Float64Array.from(worlds, (world) => world.reduce((sum, i) => sum + logOdds[i]!, 0));
  const log = Math.log(logs.reduce((sum, value) => sum + Math.exp(value), 0));
  return { book, worlds, logPrior: logs.map((value) => value - log) };
}

/** The facts of a case as evidence, line by line. @throws Problem `request.invalid` for what the book does not know */
export function evidenceOf(model: CauseModel, facts: CaseFacts): EvidenceLine[] {
  const lines = facts.findings.map((found) => findingLine(model, found));
  for (const [id, answer] of Object.entries(facts.answers)) {
    lines.push(answerLine(model, known(model.book.questions, id, 'question'), answer));
  }
  for (const id of facts.tried) lines.push(triedLine(model, known(model.book.remedies, id, 'remedy')));
  const twice = lines.find((line, i) => lines.findIndex((l) => l.id === line.id && l.kind === line.kind) < i);
  if (twice !== undefined) {
    throw new Problem('request.invalid', `“${twice.id}” is given twice.`, { remedy: 'Give it once.' });
  }
  return lines;
}

/** Chance of the observation in a world, from what each cause does to the finding. */
export function findingInWorld(finding: Finding, present: readonly Cause[], soft: SoftEvidence): number {
  const ways: Way[] = [{ chance: finding.leak, typical: finding.typical ?? 1, density: soft.there(null) }];
  for (const cause of present) {
    const link = cause.findings[finding.id];
    if (link === undefined) continue;
    const typical = link.typical ?? finding.typical ?? 1;
    ways.push({ chance: link.chance, typical, density: soft.there(typical) });
  }
  return strongestShows(ways, soft.away);
}

export function presentCauses(model: CauseModel, world: World): Cause[] {
  return world.map((i) => model.book.causes[i]!);
}

function findingLine(model: CauseModel, found: FoundOrNot): EvidenceLine {
  const finding = known(model.book.findings, found.id, 'finding');
  const soft = softEvidence(finding, found);
  const logLikelihood = Float64Array.from(model.worlds, (world) =>
    Math.log(findingInWorld(finding, presentCauses(model, world), soft)),
  );
  return { kind: 'finding', id: finding.id, logLikelihood };
}

function softEvidence(finding: Finding, found: FoundOrNot): SoftEvidence {
  if ('seen' in found) return seenByEye(found.seen);
  const isUsable = Number.isFinite(found.strength) && Number.isFinite(found.sd) && found.sd >= 0;
  if (finding.unit === null || !isUsable) {
    throw new Problem('request.invalid', `The strength of “${finding.name}” cannot be used.`, {
      remedy:
        finding.unit === null
          ? 'Say only whether it is there.'
          : `Give a number in ${finding.unit} and its standard deviation, 0 or more.`,
      where: finding.id,
    });
  }
  return measuredStrength(finding, found.strength, found.sd);
}

export function answerLine(model: CauseModel, question: Question, answer: Answer): EvidenceLine {
  const weights = choiceWeights(question, answer);
  const logLikelihood = Float64Array.from(model.worlds, (world) => {
    const chances = choiceChances(question, presentCauses(model, world));
    // A soft answer is Jeffrey's virtual evidence: weights against the usual shares, so that "as usual" says nothing.
    const isSure = weights.includes(1);
    const sum = chances.reduce(
      (total, chance, i) =>
        total + (isSure ? weights[i]! * chance : (weights[i]! * chance) / question.choices[i]!.usual),
      0,
    );
    return Math.log(sum);
  });
  return { kind: 'answer', id: question.id, logLikelihood };
}

/** The trouble stayed: either nothing that the remedy cures was there, or it failed, or another cause remains. */
function triedLine(model: CauseModel, remedy: Remedy): EvidenceLine {
  const logLikelihood = Float64Array.from(model.worlds, (world) => {
    if (world.length === 0) return 0;
    return Math.log(1 - world.reduce((all, i) => all * (remedy.cures[model.book.causes[i]!.id] ?? 0), 1));
  });
  return { kind: 'tried', id: remedy.id, logLikelihood };
}

export function known<T extends { readonly id: string }>(entries: readonly T[], id: string, kind: string): T {
  const entry = entries.find((one) => one.id === id);
  if (entry === undefined) {
    throw new Problem('request.invalid', `The book of causes knows no ${kind} “${id.slice(0, 64)}”.`, {
      remedy: `Choose a ${kind} that the book lists.`,
      where: id.slice(0, 64),
    });
  }
  return entry;
}
