import { expect, it } from 'vitest';
import { pressSchema } from '#contract';
import { issueWords } from './issue-words.js';

const units = { lengthUnit: 'mm', temperatureUnit: 'C' } as const;
const press = { id: 'one', name: 'One', kind: 'flat', platenWidthMm: 380, platenDepthMm: 380 };

it.each([
  [{ name: '' }, 'Write something here.'],
  [{ name: 'x'.repeat(121) }, 'Keep it shorter than 120 letters.'],
  [{ platenWidthMm: 0 }, 'At least 30\u00a0mm.'],
  [{ platenWidthMm: 9000 }, 'At most 5000\u00a0mm.'],
  [{ platenWidthMm: null }, 'Fill this in.'],
  [{ watts: -5 }, 'At least 20\u00a0W.'],
  [{ drive: { kind: 'weighed', points: [] } }, 'At least 2 of them.'],
  [{ drive: { kind: 'air-cylinder', boreMm: 63, lossShare: 2 } }, 'At most 90\u00a0%.'],
])('%j: %s', (wrong, words) => {
  const { error } = pressSchema.safeParse({ ...press, ...wrong });
  expect(error!.issues.map((issue) => issueWords(issue, units))).toEqual([words]);
});

it('speaks of inches where the person does', () => {
  const { error } = pressSchema.safeParse({ ...press, platenDepthMm: 1 });
  expect(issueWords(error!.issues[0]!, { lengthUnit: 'in', temperatureUnit: 'F' })).toBe(
    'At least 1.181\u00a0in.',
  );
});
