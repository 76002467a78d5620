import type { ProblemKind } from '#craft/problem';

/** Exit codes, as `dyewright --help` and docs/problems.md list them. 0: done. 8: see `exitNotRight`. */
export const exitCodes: Readonly<Record<ProblemKind, number>> = {
  internal: 1,
  input: 2,
  missing: 3,
  conflict: 4,
  limit: 5,
  disk: 6,
  cancelled: 7,
};

/** A check of level `stop` (then no sheet is made), or a read-back whose verdict is not right. */
export const exitNotRight = 8;

export const exitCodeHelp = `
Exit codes: 0 done · 1 fault in the program · 2 wrong input · 3 not there · 4 clash (in use, changed)
            5 over a limit · 6 disk · 7 stopped · 8 read or checked, and something is not right`;
