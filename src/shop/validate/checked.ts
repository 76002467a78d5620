import type { z } from 'zod';
import { Problem, type ProblemCode } from '#craft/problem';

/** The part of a zod issue that the sentence needs; validators of the doors hand on the same shape. */
export interface Issue {
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly code?: string | undefined;
}

/**
 * The value in the schema's shape, defaults filled in.
 * Errors: `code` (request.invalid by default) naming the field and what is allowed.
 */
export function checked<Schema extends z.ZodType>(
  schema: Schema,
  value: unknown,
  what: string,
  code: ProblemCode = 'request.invalid',
): z.output<Schema> {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  throw invalid(result.error.issues, what, code);
}

/** One Problem from what a validator found: the first finding in words, the number of the others. */
export function invalid(
  issues: readonly Issue[],
  what: string,
  code: ProblemCode = 'request.invalid',
): Problem {
  const first = issues[0] === undefined ? undefined : tightest(issues[0], issues);
  const fields = new Set(issues.map((issue) => fieldName(issue.path)));
  const others = fields.size > 1 ? ` (and ${fields.size - 1} more)` : '';
  const where = first === undefined ? undefined : fieldName(first.path);
  return new Problem(
    code,
    `${what}: ${first === undefined ? 'not in the form expected' : issueSentence(first)}${others}.`,
    {
      remedy: where ? `Correct “${where}” and send it again.` : 'Correct it and send it again.',
      ...(where ? { where } : {}),
    },
  );
}

/** A number over several bounds at once (a whole number's own and the field's): the bound that it must keep to. */
function tightest(first: Issue, issues: readonly Issue[]): Issue {
  const bound = (issue: Issue & { maximum?: unknown }) => Number(issue.maximum ?? Number.POSITIVE_INFINITY);
  return issues
    .filter((issue) => issue.code === first.code && fieldName(issue.path) === fieldName(first.path))
    .reduce((tight, issue) => (bound(issue) < bound(tight) ? issue : tight), first);
}

/** 'recipe.platenC: Too big: expected number to be <=230' in our words: field first, then what is allowed. */
export function issueSentence(issue: Issue): string {
  const field = fieldName(issue.path);
  const detail = issue as Issue & Record<string, unknown>;
  const said = allowed(detail) ?? issue.message.replace(/\.$/, '').replace(/^Invalid input: /, '');
  return field ? `“${field}” ${said}` : said;
}

function allowed(issue: Issue & Record<string, unknown>): string | undefined {
  // What a schema says in words of its own is said as it is.
  if (/^must /.test(issue.message)) return issue.message.replace(/\.$/, '');
  const text = issue.origin === 'string';
  const list = issue.origin === 'array';
  switch (issue.code) {
    case 'too_small': {
      const least = String(issue.minimum);
      if (text) return issue.minimum === 1 ? 'must not be empty' : `must have at least ${least} characters`;
      if (list) return `must have at least ${least} entries`;
      return issue.inclusive === false ? `must be more than ${least}` : `must be ${least} or more`;
    }
    case 'too_big': {
      const most = String(issue.maximum);
      if (text) return `must have at most ${most} characters`;
      if (list) return `must have at most ${most} entries`;
      return issue.inclusive === false ? `must be less than ${most}` : `must be ${most} or less`;
    }
    case 'invalid_type':
      return issue.message.includes('received undefined')
        ? 'is missing'
        : `must be ${article(String(issue.expected))}`;
    case 'invalid_value':
      return Array.isArray(issue.values)
        ? `must be one of ${issue.values.map(String).join(', ')}`
        : undefined;
    case 'invalid_format':
      return `must be ${issue.message.replace(/^Invalid string: /, '')}`;
    case 'invalid_union':
      return 'is none of the kinds known';
    default:
      return undefined;
  }
}

function article(type: string): string {
  const name =
    type === 'int'
      ? 'whole number'
      : type === 'boolean'
        ? 'true or false'
        : type === 'string'
          ? 'text'
          : type === 'array'
            ? 'list'
            : type;
  if (name === 'text' || name === 'true or false') return name;
  return /^[aeiou]/.test(name) ? `an ${name}` : `a ${name}`;
}

function fieldName(path: readonly PropertyKey[]): string {
  return path.map((step) => (typeof step === 'number' ? `${step + 1}` : String(step))).join('.');
}
