import { expect, it } from 'vitest';
import type { Recipe } from '#contract';
import { changeText, recipeText } from './recipe-words.js';

const recipe: Recipe = {
  platenC: 200,
  dwellSeconds: 55,
  pressure: 'medium',
  steps: [],
  basis: 'common practice',
};

it('a recipe in one line, in the person’s degrees: 200 °C is 392 °F', () => {
  expect(recipeText(recipe, 'C')).toBe('200\u00a0°C, 55\u00a0s, medium pressure');
  expect(recipeText({ ...recipe, dwellSeconds: 240 }, 'F')).toBe('392\u00a0°F, 4\u00a0min, medium pressure');
});

it('what changed: 5 °C more are 9 °F more', () => {
  const hotter = { ...recipe, platenC: 205, dwellSeconds: 45 };
  expect(changeText(recipe, hotter, 'C')).toBe('+5\u00a0°C, 10\u00a0s less');
  expect(changeText(recipe, hotter, 'F')).toBe('+9\u00a0°F, 10\u00a0s less');
  expect(changeText(recipe, { ...recipe, basis: 'other' }, 'C')).toBe('');
  expect(changeText(recipe, { ...recipe, pressure: 'firm' }, 'C')).toBe('firm pressure');
});
