import { type ProblemCode, problemCodes } from './codes.js';

/**
 * What the program says when it cannot do what was asked: one sentence for the person (`message`), one that
 * says what to do (`remedy`), and where it was found. Doors turn it into problem details (RFC 9457) or an
 * exit code; nothing else about it is theirs to invent.
 */
export class Problem extends Error {
  readonly code: ProblemCode;
  readonly remedy: string;
  readonly where: string | undefined;

  constructor(
    code: ProblemCode,
    message: string,
    options: { remedy: string; where?: string; cause?: unknown },
  ) {
    super(message, options.cause === undefined ? undefined : { cause: options.cause });
    this.name = 'Problem';
    this.code = code;
    this.remedy = options.remedy;
    this.where = options.where;
  }

  /** The kind decides the HTTP status and the exit code. */
  get kind(): ProblemKind {
    return problemCodes[this.code].kind;
  }
}

export type ProblemKind = (typeof problemCodes)[ProblemCode]['kind'];

/** Narrow an unknown thrown value. */
export function isProblem(value: unknown): value is Problem {
  return value instanceof Problem;
}

/** A thrown value as what a person is told: a Problem as it is, anything else as a fault of the program. */
export function asProblem(thrown: unknown): Problem {
  if (isProblem(thrown)) return thrown;
  return new Problem('internal.fault', 'Something went wrong inside the program.', {
    remedy: 'Try again. If it happens again, report it with what you did just before.',
    cause: thrown,
  });
}
