import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Problem, type ProblemCode, problemCodes } from '#craft/problem';
import { exitCodes } from '../../src/cli/exit-codes.js';
import { problemDetails } from '../../src/server/problem-details.js';

const page = readFileSync('docs/problems.md', 'utf8');

describe('docs/problems.md', () => {
  it('lists every code with its kind and title, and no other', () => {
    const rows = [...page.matchAll(/^\| `([a-z.-]+)` \| ([a-z]+) \| (.+) \|$/gm)];
    const listed = Object.fromEntries(rows.map(([, code, kind, title]) => [code, { kind, title }]));
    expect(listed).toEqual(problemCodes);
  });

  it('says for every kind the HTTP status and the exit code that the doors give', () => {
    const rows = [...page.matchAll(/^\| ([a-z]+) \| (\d{3}) \| (\d) \|$/gm)];
    const said = Object.fromEntries(
      rows.map(([, kind, status, exit]) => [kind, { status: Number(status), exit: Number(exit) }]),
    );
    const given = Object.fromEntries(
      (Object.keys(problemCodes) as ProblemCode[]).map((code) => {
        const problem = new Problem(code, 'Something is wrong.', { remedy: 'Mend it.' });
        return [problem.kind, { status: problemDetails(problem).status, exit: exitCodes[problem.kind] }];
      }),
    );
    expect(said).toEqual(given);
  });
});
