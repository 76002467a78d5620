import { Problem } from '#craft/problem';
import { known } from './model.js';
import { trigamma } from './trigamma.js';
import type { CauseBook } from './types.js';

/** How a case ended: the chance of each cause, as far as anyone knows; 1 for what was proved, absent = 0. */
export interface Outcome {
  readonly causes: Readonly<Record<string, number>>;
  /** How much this case counts, 0..1: less where it is only supposed. */
  readonly weight: number;
}

export interface LearntPrior {
  readonly causeId: string;
  /** In the book as it came. */
  readonly bookPer1000: number;
  /** With this shop's cases. */
  readonly per1000: number;
  /** 90 % interval of it, from the beta distribution's spread (normal on the log-odds scale). */
  readonly lowPer1000: number;
  readonly highPer1000: number;
  /** Cases that had it. */
  readonly cases: number;
}

/** The book's word counts as much as this many cases of one's own. */
export const bookCounts = 60;

/**
 * The priors of this shop: each cause's share of faulty pieces is beta-distributed, beginning at the book's share with
 * the weight of `bookCounts` cases; each closed case adds its weight to "had it" or "had it not".
 * Resetting is to learn from no outcomes.
 */
export function learnPriors(book: CauseBook, outcomes: readonly Outcome[]): LearntPrior[] {
  for (const { causes, weight } of outcomes) {
    const values = [weight, ...Object.values(causes)];
    for (const id of Object.keys(causes)) known(book.causes, id, 'cause');
    if (!values.every((value) => value >= 0 && value <= 1)) {
      throw new Problem('request.invalid', 'An outcome has a chance or weight outside 0 to 1.', {
        remedy: 'Give 1 for what is certain, less for what is supposed.',
      });
    }
  }
  return book.causes.map((cause) => {
    const share = cause.per1000 / 1000;
    let had = share * bookCounts;
    let hadNot = (1 - share) * bookCounts;
    let cases = 0;
    for (const { causes, weight } of outcomes) {
      const chance = causes[cause.id] ?? 0;
      had += weight * chance;
      hadNot += weight * (1 - chance);
      cases += weight * chance;
    }
    const mean = had / (had + hadNot);
    // Var(logit p) of a beta(a, b) is ψ'(a) + ψ'(b).
    const sd = Math.sqrt(trigamma(had) + trigamma(hadNot));
    const odds = mean / (1 - mean);
    const per1000 = (o: number): number => (1000 * o) / (1 + o);
    return {
      causeId: cause.id,
      bookPer1000: cause.per1000,
      per1000: 1000 * mean,
      lowPer1000: per1000(odds * Math.exp(-1.645 * sd)),
      highPer1000: per1000(odds * Math.exp(1.645 * sd)),
      cases,
    };
  });
}

/** How often each choice is the answer in this shop, from its ordinary runs (Dirichlet, the book counts as 20 runs). */
export function learnUsual(
  book: CauseBook,
  counts: Readonly<Record<string, Readonly<Record<string, number>>>>,
): CauseBook {
  const bookRuns = 20;
  for (const id of Object.keys(counts)) known(book.questions, id, 'question');
  const questions = book.questions.map((question) => {
    const own = counts[question.id];
    if (own === undefined) return question;
    const total = question.choices.reduce((sum, { id }) => sum + (own[id] ?? 0), 0);
    const choices = question.choices.map((choice) => ({
      ...choice,
      usual: (choice.usual * bookRuns + (own[choice.id] ?? 0)) / (bookRuns + total),
    }));
    return { ...question, choices };
  });
  return { ...book, questions };
}

/** The book with this shop's priors in it. */
export function withPriors(book: CauseBook, priors: readonly LearntPrior[]): CauseBook {
  const per1000 = new Map(priors.map((prior) => [prior.causeId, prior.per1000]));
  return {
    ...book,
    causes: book.causes.map((cause) => ({ ...cause, per1000: per1000.get(cause.id) ?? cause.per1000 })),
  };
}
