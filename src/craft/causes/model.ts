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

/** Share of faulty pieces with none of the book's causes, with one, and with two at once; from memory. */
export const usualCounts: readonly number[] = [0.03, 0.82, 0.15];

/**
 * The book as a two-layer network: causes above, findings and answers below that depend on the causes present. A piece
 * has none, one or two of them with the chances of `counts`; which one goes by their `per1000`, which two by the
 * product of both (as if they came independently of each other).
 */
export function causeModel(book: CauseBook, counts: readonly number[] = usualCounts): CauseModel {
  const worlds = worldsOf(book.causes.length, counts.length - 1);
  const logShare = book.causes.map(({ per1000 }) => Math.log(per1000 / 1000));
  const logs = Float64Array.from(worlds, (world) => world.reduce((sum, i) => sum + logShare[i]!, 0));
  const sums = counts.map(() => 0);
  worlds.forEach((world, w) => {
    sums[world.length] = sums[world.length]! + Math.exp(logs[w]!);
  });
  const all = counts.reduce((a, b, count) => a + (sums[count]! > 0 ? b : 0), 0);
  const logPrior = logs.map((log, w) => {
    const count = worlds[w]!.length;
    return log + Math.log(counts[count]! / all / sums[count]!);
  });
  return { book, worlds, logPrior };
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

/**
 * A value for each world that depends only on those of its causes that have to do with the matter: worked out once for
 * each such set instead of once a world (most causes have nothing to do with most findings).
 */
export function inEachWorld<T>(
  causes: readonly Cause[],
  worlds: readonly World[],
  hasToDo: (cause: Cause) => boolean,
  value: (present: readonly Cause[]) => T,
): T[] {
  const matters = causes.map(hasToDo);
  const none = value([]);
  const single = causes.map((cause, i) => (matters[i] ? value([cause]) : none));
  const more = new Map<number, T>();
  return worlds.map((world) => {
    let count = 0;
    let last = -1;
    let key = 0;
    for (const i of world) {
      if (!matters[i]) continue;
      count += 1;
      last = i;
      key = key * (causes.length + 1) + i + 1;
    }
    if (count < 2) return count === 0 ? none : single[last]!;
    const before = more.get(key);
    if (before !== undefined) return before;
    const now = value(world.filter((i) => matters[i]).map((i) => causes[i]!));
    more.set(key, now);
    return now;
  });
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

function findingLine(model: CauseModel, found: FoundOrNot): EvidenceLine {
  const finding = known(model.book.findings, found.id, 'finding');
  const soft = softEvidence(finding, found);
  const logs = inEachWorld(
    model.book.causes,
    model.worlds,
    (cause) => Object.hasOwn(cause.findings, finding.id),
    (present) => Math.log(findingInWorld(finding, present, soft)),
  );
  return { kind: 'finding', id: finding.id, logLikelihood: Float64Array.from(logs) };
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

function answerLine(model: CauseModel, question: Question, answer: Answer): EvidenceLine {
  const weights = choiceWeights(question, answer);
  const isSure = weights.includes(1);
  // A soft answer is virtual evidence (Pearl 1988, 2.2.2): weights against the usual shares, so that "as usual" says nothing.
  const against = weights.map((weight, i) => (isSure ? weight : weight / question.choices[i]!.usual));
  const logs = inEachWorld(
    model.book.causes,
    model.worlds,
    (cause) => Object.hasOwn(cause.answers, question.id),
    (present) =>
      Math.log(choiceChances(question, present).reduce((sum, chance, i) => sum + chance * against[i]!, 0)),
  );
  return { kind: 'answer', id: question.id, logLikelihood: Float64Array.from(logs) };
}

/** Chance of each choice in each world. */
export function choicesInWorlds(book: CauseBook, worlds: readonly World[], question: Question): number[][] {
  return inEachWorld(
    book.causes,
    worlds,
    (cause) => Object.hasOwn(cause.answers, question.id),
    (present) => choiceChances(question, present),
  );
}

/** The trouble stayed: either nothing that the remedy cures was there, or it failed, or another cause remains. */
function triedLine(model: CauseModel, remedy: Remedy): EvidenceLine {
  const logs = model.worlds.map((world) => {
    if (world.length === 0) return 0;
    return Math.log(1 - world.reduce((all, i) => all * (remedy.cures[model.book.causes[i]!.id] ?? 0), 1));
  });
  return { kind: 'tried', id: remedy.id, logLikelihood: Float64Array.from(logs) };
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
