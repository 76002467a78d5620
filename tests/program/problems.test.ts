import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { problemCodes } from '#craft/problem';

describe('docs/problems.md', () => {
  it('lists every code with its kind and title, and no other', () => {
    const rows = [
      ...readFileSync('docs/problems.md', 'utf8').matchAll(/^\| `([a-z.-]+)` \| ([a-z]+) \| (.+) \|$/gm),
    ];
    const listed = Object.fromEntries(rows.map(([, code, kind, title]) => [code, { kind, title }]));
    expect(listed).toEqual(problemCodes);
  });
});
