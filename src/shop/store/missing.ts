import { Problem } from '#craft/problem';

/** The Problem for a record that is not there. `what` in words: 'print setup'. */
export function missing(what: string, id: string): Problem {
  return new Problem('record.missing', `There is no ${what} “${id.slice(0, 80)}”.`, {
    remedy: 'Choose one from the list; it may have been removed meanwhile.',
  });
}
