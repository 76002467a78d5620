/** What an entry rests on. */
export type Basis = 'common practice' | 'published' | 'memory';

export const areas = [
  'printer',
  'paper',
  'ink',
  'file',
  'blank',
  'cleaning',
  'press',
  'oven-and-sleeve',
  'handling',
  'room',
] as const;
export type Area = (typeof areas)[number];

/** Something that can be seen or measured on a piece. */
export interface Finding {
  readonly id: string;
  readonly name: string;
  /** One sentence: how it looks. */
  readonly looks: string;
  /** Unit of its strength; null where it is only there or not. */
  readonly unit: string | null;
  /** Strength that 1 of 20 faultless pieces exceeds, in `unit`; null without a unit. */
  readonly threshold: number | null;
  /** Median strength where it is really there, in `unit`; null without a unit. */
  readonly typical: number | null;
  /** Standard deviation of ln(strength) where it is really there. */
  readonly spread: number;
  /** Chance that it is there for none of the causes in the book. */
  readonly leak: number;
  readonly basis: Basis;
}

export interface Choice {
  readonly id: string;
  readonly text: string;
  /** Share of ordinary pieces for which this is the answer; the shares of a question sum to 1. */
  readonly usual: number;
}

/** How a number becomes a choice: the first band it lies below; the last has no bound. */
export interface Band {
  readonly below: number | null;
  readonly choice: string;
}

/** What can be asked: of a person (question), of the run's record (setting), or by doing something (test). */
export interface Question {
  readonly id: string;
  readonly kind: 'question' | 'setting' | 'test';
  readonly text: string;
  /** What to do to know; '' where a look is enough. */
  readonly how: string;
  readonly choices: readonly Choice[];
  /** Only worth asking where this finding is there (its direction, its side …); null otherwise. */
  readonly about: string | null;
  /** Where a number answers it. */
  readonly measured: { readonly name: string; readonly unit: string; readonly bands: readonly Band[] } | null;
  readonly cost: Cost;
  /** Ids of the cautions of `#craft/heat`. */
  readonly cautions: readonly string[];
  readonly basis: Basis;
}

export interface Cost {
  readonly minutes: number;
  /** In units of which a usual blank costs about three. */
  readonly money: number;
  readonly blanks: number;
}

/** How a cause shows in one finding. */
export interface Link {
  /** Chance that this cause, alone, brings the finding about (noisy-OR). */
  readonly chance: number;
  /** Median strength when it does, in the finding's unit; null where the finding has none. */
  readonly typical: number | null;
}

export interface Cause {
  readonly id: string;
  readonly name: string;
  readonly area: Area;
  /** One sentence: why it makes such pieces. */
  readonly reason: string;
  /** Of 1000 faulty pieces, in how many it plays a part. */
  readonly per1000: number;
  readonly findings: Readonly<Record<string, Link>>;
  /** question → choice → how many times as often as usual that answer comes with this cause (odds factor). */
  readonly answers: Readonly<Record<string, Readonly<Record<string, number>>>>;
  readonly cautions: readonly string[];
  readonly basis: Basis;
}

export interface Remedy {
  readonly id: string;
  readonly name: string;
  /** What to do, in a sentence or two. */
  readonly how: string;
  /** With the look afterwards whether it helped. */
  readonly cost: Cost;
  /** cause → chance that it is gone afterwards. */
  readonly cures: Readonly<Record<string, number>>;
  readonly cautions: readonly string[];
  readonly basis: Basis;
}

/** The whole book, checked and merged. */
export interface CauseBook {
  readonly findings: readonly Finding[];
  readonly questions: readonly Question[];
  readonly causes: readonly Cause[];
  readonly remedies: readonly Remedy[];
}

/** A file of the book as it lies in a folder. */
export interface BookFile {
  readonly fileName: string;
  readonly text: string;
}

/** What is known about one finding of a case: measured, or said by a person. Absent = nobody looked. */
export type FoundOrNot =
  | { readonly id: string; readonly strength: number; readonly sd: number }
  | { readonly id: string; readonly seen: boolean };

/** An answer: one choice, a number where the question has bands, or how likely each choice is (sums to 1). */
export type Answer = string | number | Readonly<Record<string, number>>;

export interface CaseFacts {
  readonly findings: readonly FoundOrNot[];
  readonly answers: Readonly<Record<string, Answer>>;
  /** Remedies done that did not end the trouble. */
  readonly tried: readonly string[];
}
