import type { Recipe } from '#contract';
import { type FoundPress, offsetRemarks, setCFor } from './found-press.js';

/**
 * Share of the usual time: a rule of thumb of ours. Dye rises steeply early and levels off at the full time, where a
 * cool place has caught up and no longer shows.
 */
const shareOfTime = 0.75;

/** The usual recipe, short on purpose, with how the sheet lies; its temperature is what to set. */
export function evennessRecipe(recipe: Recipe, press: FoundPress | null): Recipe {
  const offsetK = press?.offsetK ?? null;
  return {
    ...recipe,
    platenC: setCFor(recipe.platenC, offsetK),
    dwellSeconds: Math.max(5, Math.round(shareOfTime * recipe.dwellSeconds)),
    basis: `Three quarters of the usual ${recipe.dwellSeconds} s, on purpose: the colour is still rising then, so a cool place shows; at the full time it has caught up. ${offsetWords(press)}`,
    steps: [
      'Lay the piece in the middle of the platen, its face up; on it the sheet, printed side down, the edge with the words to the back of the press.',
      // Steps that turn the piece over would turn the map over too.
      ...recipe.steps.filter((step) => !step.includes('face down')),
      'Press it once only: a second pressing hides what the first one showed.',
    ],
  };
}

function offsetWords(press: FoundPress | null): string {
  const isMeasured = press !== null && press.offsetK !== null;
  return isMeasured
    ? (offsetRemarks(press)[0] ?? '')
    : 'The display is taken as true: nobody has measured this press.';
}
