import { Problem } from '#craft/problem';

/** JSON that came as text, in an address or a form. Errors: request.invalid. */
export function jsonIn(text: string, where: string, what: string): unknown {
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw new Problem('request.invalid', `What was sent as “${where}” is not JSON.`, {
      remedy: `Send ${what} as JSON in “${where}”; see /api/docs.`,
      where,
      cause,
    });
  }
}
