import type { Blank, Press, Recipe, RecipeGround, RecipeVersion } from '#contract';
import { digestOf, type Records } from '#shop/store';

export interface VersionOf {
  readonly ground: RecipeGround;
  /** The press it was found on, where one is known. */
  readonly press?: Pick<Press, 'id' | 'name'> | null;
  readonly at: string;
}

/** Whether two recipes are one: the same figures, steps and basis. */
export const sameRecipe = (one: Recipe, other: Recipe): boolean => digestOf(one) === digestOf(other);

/** Keeps the recipe that the blank now has as its next version. For use within `together`. */
export async function addRecipeVersion(
  records: Records,
  blank: Blank,
  { ground, press, at }: VersionOf,
): Promise<RecipeVersion> {
  const version: RecipeVersion = {
    blankId: blank.id,
    number: ((await records.recipeVersions.latest(blank.id))?.number ?? 0) + 1,
    recipe: blank.recipe,
    ground,
    pressId: press?.id ?? null,
    pressName: press?.name ?? null,
    createdAt: at,
  };
  await records.recipeVersions.put(version);
  return version;
}

/**
 * A version for a recipe that was typed, if it is another than the newest one. `before` is the blank as it was: when it
 * has no version yet, its recipe becomes the first.
 */
export async function keepTypedRecipe(
  records: Records,
  blank: Blank,
  before: Blank | undefined,
  at: string,
): Promise<void> {
  let latest = await records.recipeVersions.latest(blank.id);
  if (latest === undefined && before !== undefined)
    latest = await addRecipeVersion(records, before, { ground: typedGround(before.recipe, null), at });
  if (latest !== undefined && sameRecipe(latest.recipe, blank.recipe)) return;
  await addRecipeVersion(records, blank, { ground: typedGround(blank.recipe, latest?.recipe ?? null), at });
}

/** The first version of a stock recipe. */
export const stockGround = (recipe: Recipe): RecipeGround => ({
  kind: 'stock',
  ladderId: null,
  knownBlankId: null,
  words: recipe.basis,
});

/**
 * A basis that stayed while the figures changed speaks of the old figures: then the words say that a person changed
 * them, and from what.
 */
export function typedGround(recipe: Recipe, before: Recipe | null): RecipeGround {
  const words =
    before !== null && before.basis === recipe.basis && figuresOf(before) !== figuresOf(recipe)
      ? `Changed by hand from ${figuresOf(before)}.`
      : recipe.basis;
  return { kind: 'typed', ladderId: null, knownBlankId: null, words };
}

/** '204 °C, 70 s, medium pressure' */
export const figuresOf = (recipe: Pick<Recipe, 'platenC' | 'dwellSeconds' | 'pressure'>): string =>
  `${recipe.platenC} °C, ${recipe.dwellSeconds} s, ${recipe.pressure} pressure`;
