import { expect, test } from 'vitest';
import { blankSchema, recipeSchema, sheetRequestSchema } from '#contract';
import { Problem } from '#craft/problem';
import { checked } from './index.js';

const said = (work: () => unknown): Problem => {
  try {
    work();
  } catch (error) {
    if (error instanceof Problem) return error;
  }
  throw new Error('nothing was refused');
};

test('a good value comes back with its defaults', () => {
  const request = checked(
    sheetRequestSchema,
    { artworkId: 'a'.repeat(64), blankId: 'b', setupId: 's' },
    'The sheet',
  );
  expect(request).toMatchObject({ copies: 1, placement: { mode: 'fill', scale: 1 } });
});

test('the sentence names the field and what is allowed, and counts what else is wrong', () => {
  const problem = said(() =>
    checked(sheetRequestSchema, { artworkId: 'x', blankId: 'b', setupId: 's', copies: 0 }, 'The sheet'),
  );
  expect(problem.message).toBe('The sheet: “artworkId” must be a SHA-256 in hexadecimal (and 1 more).');
  expect(problem.where).toBe('artworkId');
  expect(problem.code).toBe('request.invalid');
});

test('values that are no object, and fields deep inside', () => {
  expect(said(() => checked(sheetRequestSchema, null, 'The sheet')).message).toBe(
    'The sheet: must be an object.',
  );
  const deep = said(() =>
    checked(
      sheetRequestSchema,
      { artworkId: 'a'.repeat(64), blankId: 'b', setupId: 's', placement: { scale: 'big' } },
      'The sheet',
    ),
  );
  expect(deep.message).toContain('“placement.scale” must be a number');
  expect(said(() => checked(blankSchema, {}, 'The blank', 'blank.invalid')).code).toBe('blank.invalid');
});

test('what a schema says in words of its own is said, with why', () => {
  const recipe = { platenC: 240, dwellSeconds: 60, pressure: 'medium', steps: [], basis: 'x' };
  expect(said(() => checked(recipeSchema, recipe, 'The recipe')).message).toBe(
    'The recipe: “platenC” must be 230 or less: hotter, sheets and coatings give off harmful vapour.',
  );
});

test('of several bounds on one number the one to keep to is named, and the number counts as one thing wrong', () => {
  const sheet = { artworkId: 'a'.repeat(64), blankId: 'b', setupId: 's', ppi: 1e308 };
  expect(said(() => checked(sheetRequestSchema, sheet, 'The sheet')).message).toBe(
    'The sheet: “ppi” must be 1200 or less.',
  );
});
