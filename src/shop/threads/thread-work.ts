import { isProblem, Problem, type ProblemCode } from '#craft/problem';

/**
 * An error as it crosses from a thread. The structured clone that messages go through keeps an Error's message and
 * nothing of ours (HTML Standard, 2.7.3: name, message, stack), so the rest is carried beside it.
 */
interface CarriedError {
  readonly dyewrightError: {
    readonly problem: { code: ProblemCode; remedy: string; where: string | undefined } | null;
    readonly message: string;
    /** Node's name of a system error: ENOSPC, EIO… */
    readonly systemCode: string | null;
    readonly stack: string | undefined;
  };
}

/** Wraps what a thread does, so that what it throws arrives as it was: a Problem as a Problem, a system error with its code. */
export function threadWork<Task, Result>(
  work: (task: Task) => Result | Promise<Result>,
): (task: Task) => Promise<Result | CarriedError> {
  return async (task) => {
    try {
      return await work(task);
    } catch (error) {
      return carried(error);
    }
  };
}

/** The result of a thread's work, or what it threw. */
export function unwrap<Result>(answer: Result | CarriedError): Result {
  if (!isCarried(answer)) return answer;
  const { problem, message, systemCode, stack } = answer.dyewrightError;
  if (problem !== null) {
    const { code, remedy, where } = problem;
    throw new Problem(code, message, { remedy, ...(where === undefined ? {} : { where }) });
  }
  const error = new Error(message);
  if (stack !== undefined) error.stack = stack;
  throw systemCode === null ? error : Object.assign(error, { code: systemCode });
}

function carried(error: unknown): CarriedError {
  const { message, code, stack } = (error ?? {}) as { message?: unknown; code?: unknown; stack?: unknown };
  return {
    dyewrightError: {
      problem: isProblem(error) ? { code: error.code, remedy: error.remedy, where: error.where } : null,
      message: typeof message === 'string' ? message : String(error),
      systemCode: !isProblem(error) && typeof code === 'string' ? code : null,
      stack: typeof stack === 'string' ? stack : undefined,
    },
  };
}

function isCarried(answer: unknown): answer is CarriedError {
  return typeof answer === 'object' && answer !== null && 'dyewrightError' in answer;
}
