import { Problem } from '#craft/problem';

export function notYet(): never {
  throw new Problem('internal.fault', 'This part is being built.', { remedy: 'Wait for the next commit.' });
}
