import type { Random } from '#craft/numerics';
import { choiceChances } from '../answer-likelihood.js';
import type { CauseModel } from '../model.js';
import type { CaseFacts, Cause, CauseBook, Finding, FoundOrNot } from '../types.js';
import type { World } from '../worlds.js';

/** A faulty piece as the book imagines it: what is the matter, and what could be learnt about it. */
export interface DrawnCase {
  readonly world: World;
  readonly causeIds: readonly string[];
  /** All findings as a photo would give them. */
  readonly findings: readonly FoundOrNot[];
  /** The true answer to every question. */
  readonly answers: Readonly<Record<string, string>>;
}

/** Causes by their shares, one or two of them; a case without a visible fault is nobody's case and drawn again. */
export function drawCase(model: CauseModel, random: Random): DrawnCase {
  const cumulated: number[] = [];
  let sum = 0;
  for (const log of model.logPrior) {
    sum += Math.exp(log);
    cumulated.push(sum);
  }
  for (;;) {
    const at = random.uniform() * sum;
    const world = model.worlds[cumulated.findIndex((upTo) => at < upTo)]!;
    if (world.length === 0) continue;
    const present = world.map((i) => model.book.causes[i]!);
    const drawn = model.book.findings.map((finding) => drawFinding(finding, present, random));
    if (!drawn.some(({ isThere }) => isThere)) continue;
    const answers: Record<string, string> = {};
    let fits = true;
    for (const question of model.book.questions) {
      const chances = choiceChances(question, present);
      if (chances.every((chance) => chance === 0)) {
        fits = false;
        break;
      }
      answers[question.id] = question.choices[pick(chances, random)]!.id;
    }
    if (!fits) continue;
    return {
      world,
      causeIds: present.map(({ id }) => id),
      findings: drawn.map(({ found }) => found),
      answers,
    };
  }
}

/** What a case has to tell before anybody asks: its photo and the run's own record. */
export function factsAtFirst(model: CauseModel, drawn: DrawnCase): CaseFacts {
  const answers: Record<string, string> = {};
  for (const { id, kind } of model.book.questions) if (kind === 'setting') answers[id] = drawn.answers[id]!;
  return { findings: drawn.findings, answers, tried: [] };
}

/** A book whose every number is off: log-normal shares and factors, chances shifted on the log-odds scale. */
export function disturb(book: CauseBook, random: Random, sd: number): CauseBook {
  const times = (value: number): number => value * Math.exp(sd * random.normal());
  const shifted = (chance: number): number => {
    const odds = times(chance / (1 - chance));
    return Math.min(0.99, odds / (1 + odds));
  };
  const all = <A, B>(record: Readonly<Record<string, A>>, change: (value: A) => B): Record<string, B> =>
    Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value)]));
  return {
    ...book,
    findings: book.findings.map((finding) => ({ ...finding, leak: shifted(finding.leak) })),
    questions: book.questions.map((question) => {
      const usual = question.choices.map((choice) => times(choice.usual));
      const sum = usual.reduce((a, b) => a + b, 0);
      return {
        ...question,
        choices: question.choices.map((choice, i) => ({ ...choice, usual: usual[i]! / sum })),
      };
    }),
    causes: book.causes.map((cause) => ({
      ...cause,
      per1000: Math.min(400, times(cause.per1000)),
      findings: all(cause.findings, (link) => ({
        chance: shifted(link.chance),
        typical: link.typical === null ? null : times(link.typical),
      })),
      answers: all(cause.answers, (factors) => all(factors, times)),
    })),
  };
}

function drawFinding(finding: Finding, present: readonly Cause[], random: Random) {
  const medians: number[] = [];
  if (random.uniform() < finding.leak) medians.push(finding.typical ?? 1);
  for (const cause of present) {
    const link = cause.findings[finding.id];
    if (link !== undefined && random.uniform() < link.chance)
      medians.push(link.typical ?? finding.typical ?? 1);
  }
  const isThere = medians.length > 0;
  if (finding.unit === null) {
    const seen = random.uniform() < (isThere ? 0.88 : 0.04);
    return { isThere, found: { id: finding.id, seen } satisfies FoundOrNot };
  }
  const strength = isThere ? Math.max(...medians) * Math.exp(finding.spread * random.normal()) : 0;
  // What faultless pieces scatter, and a measurement half as uncertain.
  const scatter = finding.threshold! / 1.96;
  const sd = scatter / 2;
  const measured = Math.abs(strength + Math.hypot(scatter, sd) * random.normal());
  return { isThere, found: { id: finding.id, strength: measured, sd } satisfies FoundOrNot };
}

function pick(chances: readonly number[], random: Random): number {
  let at = random.uniform();
  for (let i = 0; i < chances.length; i += 1) {
    at -= chances[i]!;
    if (at < 0) return i;
  }
  return chances.length - 1;
}
