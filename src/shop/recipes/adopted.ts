import type { Blank, EstimateFacts, Ladder, Recipe, RecipeGround, RecipeVersion } from '#contract';
import { Problem } from '#craft/problem';
import { figuresOf } from '#shop/catalogue';

/** A recipe to become the blank's, and what it rests on. */
export interface Adopted {
  readonly recipe: Recipe;
  readonly ground: RecipeGround;
}

/** Longest basis and words that the contract holds. */
const basisLength = 300;

/** The middle of a ladder's window. Errors: ladder.unusable, request.invalid. */
export function fromLadder(blank: Blank, ladder: Ladder): Adopted {
  if (ladder.blankId !== blank.id)
    throw new Problem(
      'request.invalid',
      `That ladder was pressed on ${ladder.blankName}, not on ${blank.name}.`,
      {
        remedy: 'Take it for its own blank; from there a start recipe can be carried over.',
        where: 'ladderId',
      },
    );
  if (ladder.window === null)
    throw new Problem('ladder.unusable', ladder.missing ?? 'That ladder has no window yet.', {
      remedy: 'Read or judge more of its coupons first.',
      where: 'ladderId',
    });
  const { recipe: found, isSure } = ladder.window;
  const { shorterSeconds, longerSeconds } = found.tolerance;
  const read = ladder.coupons.filter(
    ({ values, byEye, leftOut }) => !leftOut && (values !== null || byEye !== null),
  );
  const day = ladder.updatedAt.slice(0, 10);
  const bears = `It bears ${Math.floor(shorterSeconds)} s less and ${Math.floor(longerSeconds)} s more`;
  const words = `A ladder of ${read.length} coupons, ${day}. ${bears}${isSure ? '' : '; not yet sure: further coupons would tell'}.`;
  return {
    recipe: withFigures(blank.recipe, {
      platenC: tenth(found.platenC),
      dwellSeconds: Math.round(found.dwellSeconds),
      basis: `Measured here: ${words}`,
    }),
    ground: { kind: 'ladder', ladderId: ladder.sheetId, knownBlankId: null, words },
  };
}

/**
 * Carried over from a blank that works.
 *
 * @param said what the model says of the time at that temperature; null: that it is never reached. A time out of its range
 * is a person's own, and the words do not lend it the model's name.
 */
export function fromHeat(
  blank: Blank,
  known: Blank,
  figures: Pick<Recipe, 'platenC' | 'dwellSeconds'>,
  said: EstimateFacts | null,
): Adopted {
  const from = `${known.name} (${figuresOf(known.recipe)})`;
  const isItsOwn =
    said !== null &&
    figures.dwellSeconds >= Math.floor(said.low) &&
    figures.dwellSeconds <= Math.ceil(said.high);
  const range = said === null ? 'no time' : `${Math.round(said.low)} to ${Math.round(said.high)} s`;
  const words = isItsOwn
    ? `Carried over from ${from} by a model of heat: a place to start. The maker's instructions come first.`
    : `A time of your own, beside ${from}: with usual thicknesses the model of heat says ${range}. The maker's instructions come first.`;
  return {
    recipe: withFigures(blank.recipe, { ...figures, platenC: tenth(figures.platenC), basis: words }),
    ground: { kind: 'heat', ladderId: null, knownBlankId: known.id, words },
  };
}

export function fromTyped(recipe: Recipe, words: string): Adopted {
  return {
    recipe,
    ground: { kind: 'typed', ladderId: null, knownBlankId: null, words: words.trim() || recipe.basis },
  };
}

/** An earlier version, with what it rested on. */
export function fromVersion({ number, recipe, ground }: RecipeVersion): Adopted {
  const words = `Version ${number} again. ${ground.words.replace(/^(Version \d+ again\. )+/, '')}`;
  return { recipe, ground: { ...ground, words: cut(words, 600) } };
}

function withFigures(
  recipe: Recipe,
  { basis, ...figures }: Pick<Recipe, 'platenC' | 'dwellSeconds' | 'basis'>,
): Recipe {
  return { ...recipe, ...figures, basis: cut(basis, basisLength) };
}

const tenth = (value: number): number => Math.round(value * 10) / 10;

const cut = (text: string, length: number): string =>
  text.length <= length ? text : `${text.slice(0, length - 1)}…`;
