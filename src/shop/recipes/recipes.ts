import {
  type AdoptRecipe,
  adoptRecipeSchema,
  type Blank,
  type Press,
  type RecipeOnPress,
  type RecipeSuggestion,
  type RecipeVersion,
  recipeSchema,
  suggestRequestSchema,
} from '#contract';
import { Problem } from '#craft/problem';
import { addRecipeVersion, sameRecipe, typedGround } from '#shop/catalogue';
import { type HeatDesk, usualBody } from '#shop/heat-desk';
import type { Ladders } from '#shop/press-bench';
import type { Presses } from '#shop/presses';
import { missing, type Records } from '#shop/store';
import { checked } from '#shop/validate';
import { type Adopted, fromHeat, fromLadder, fromTyped, fromVersion } from './adopted.js';
import { chooseKnown } from './choose-known.js';
import { onPress } from './on-press.js';
import { suggestRecipe } from './suggest.js';

export interface RecipesParts {
  readonly records: Records;
  readonly presses: Pick<Presses, 'get' | 'offset'>;
  readonly ladders: Pick<Ladders, 'get'>;
  readonly heatDesk: Pick<HeatDesk, 'contacts' | 'truth'>;
  readonly now: () => Date;
}

/** Recipes of blanks: their versions, where new ones come from, and what they mean on a press. */
export class Recipes {
  constructor(private readonly parts: RecipesParts) {}

  /** Newest first; the newest is the recipe in use. Errors: record.missing for a blank that is gone. */
  async versions(blankId: string): Promise<RecipeVersion[]> {
    return this.parts.records.together(async (records) => {
      await this.current(records, await blankOf(records, blankId));
      return records.recipeVersions.list(blankId);
    });
  }

  /**
   * Makes a recipe the blank's, as a new version; the same recipe on the same ground stays the version it is.
   * Errors: request.invalid, record.missing, ladder.unusable.
   */
  async adopt(blankId: string, value: unknown): Promise<RecipeVersion> {
    const request = checked(adoptRecipeSchema, value, 'The recipe cannot be adopted');
    const { records, ladders } = this.parts;
    // Looked up before the transaction: making a ladder's record on first look is a write of its own.
    const ladder = request.from === 'ladder' ? await ladders.get(request.ladderId) : null;
    const pressId = 'pressId' in request ? request.pressId : undefined;
    const named = pressId ?? ladder?.plan.pressId ?? null;
    const press =
      pressId === undefined ? await this.pressIfThere(named) : await this.parts.presses.get(pressId);
    const said = request.from === 'heat' ? await this.saidByHeat(blankId, request) : null;
    return records.together(async (inside) => {
      const blank = await blankOf(inside, blankId);
      const latest = await this.current(inside, blank);
      const adopted = await (async (): Promise<Adopted & { press?: Pick<Press, 'id' | 'name'> | null }> => {
        switch (request.from) {
          case 'ladder':
            return { ...fromLadder(blank, ladder!), press };
          case 'heat':
            return {
              ...fromHeat(blank, await otherBlank(inside, blank, request.knownBlankId), request, said),
              press,
            };
          case 'typed':
            return fromTyped(request.recipe, request.words);
          case 'version': {
            const version = await versionOf(inside, blankId, request.number);
            const { pressId: id, pressName: name } = version;
            return { ...fromVersion(version), press: id === null || name === null ? null : { id, name } };
          }
        }
      })();
      const { recipe, ground } = adopted;
      if (sameRecipe(latest.recipe, recipe) && latest.ground.kind === ground.kind) return latest;
      const at = this.parts.now().toISOString();
      const changed = {
        ...blank,
        recipe: checked(recipeSchema, recipe, 'The recipe cannot be kept', 'press.invalid'),
      };
      await inside.blanks.put(changed, at);
      return addRecipeVersion(inside, changed, { ground, press: adopted.press ?? null, at });
    });
  }

  /** What to set. No press named: the one the recipe was found on, if it is still there. Errors: record.missing. */
  async onPress(blankId: string, pressId?: string): Promise<RecipeOnPress> {
    const [latest] = await this.versions(blankId);
    const found = pressId === undefined ? ((await this.pressIfThere(latest!.pressId))?.id ?? null) : pressId;
    if (pressId !== undefined) await this.parts.presses.get(pressId);
    return onPress(latest!, found, await this.parts.presses.offset(found));
  }

  /** A start recipe for a blank never pressed. Errors: request.invalid, record.missing, press.invalid, press.unsafe. */
  async suggest(value: unknown): Promise<RecipeSuggestion> {
    const request = checked(suggestRequestSchema, value, 'The question cannot be understood');
    const { records, presses, heatDesk } = this.parts;
    const blank = await blankOf(records, request.blankId);
    const press = request.pressId === undefined ? null : await presses.get(request.pressId);
    const known =
      request.knownBlankId === undefined
        ? await this.choose(blank, request.thicknessMm)
        : await otherBlank(records, blank, request.knownBlankId);
    return suggestRecipe({
      request,
      blank,
      known,
      knownVersion: await records.recipeVersions.latest(known.id),
      ownVersion: await records.recipeVersions.latest(blank.id),
      press,
      offset: await presses.offset(press?.id ?? null),
      truth: await heatDesk.truth(press?.id ?? null),
      contacts: await heatDesk.contacts(),
    });
  }

  /** What the model of heat itself says at that temperature, with the usual thicknesses. */
  private async saidByHeat(
    blankId: string,
    { knownBlankId, platenC, pressId }: Extract<AdoptRecipe, { from: 'heat' }>,
  ): Promise<RecipeSuggestion['dwellSeconds']> {
    const on = pressId === undefined ? {} : { pressId };
    return (await this.suggest({ blankId, knownBlankId, platenC, ...on })).dwellSeconds;
  }

  private async choose(blank: Blank, thicknessMm: number | undefined): Promise<Blank> {
    const { records } = this.parts;
    const candidates = await Promise.all(
      (await records.blanks.list()).map(async (other) => ({
        blank: other,
        latest: await records.recipeVersions.latest(other.id),
      })),
    );
    const known = chooseKnown(blank, usualBody(blank, thicknessMm), candidates);
    if (known !== null) return known;
    throw new Problem('record.missing', 'There is no other blank to carry a recipe over from.', {
      remedy: 'Add a blank whose recipe works, and ask again.',
    });
  }

  /** The newest version; one that some other hand left out of the history is put there first. */
  private async current(records: Records, blank: Blank): Promise<RecipeVersion> {
    const latest = await records.recipeVersions.latest(blank.id);
    if (latest !== undefined && sameRecipe(latest.recipe, blank.recipe)) return latest;
    const ground = typedGround(blank.recipe, latest?.recipe ?? null);
    return addRecipeVersion(records, blank, { ground, at: this.parts.now().toISOString() });
  }

  private async pressIfThere(id: string | null): Promise<Press | null> {
    return id === null ? null : ((await this.parts.records.presses.get(id)) ?? null);
  }
}

async function blankOf(records: Records, id: string): Promise<Blank> {
  const blank = await records.blanks.get(id);
  if (blank === undefined) throw missing('blank', id);
  return blank;
}

async function otherBlank(records: Records, blank: Blank, id: string): Promise<Blank> {
  if (id === blank.id)
    throw new Problem('request.invalid', 'A recipe is carried over from another blank, not from itself.', {
      remedy: 'Name a blank whose recipe works, or none: then the one most like it is taken.',
      where: 'knownBlankId',
    });
  return blankOf(records, id);
}

async function versionOf(records: Records, blankId: string, number: number): Promise<RecipeVersion> {
  const version = (await records.recipeVersions.list(blankId)).find((one) => one.number === number);
  if (version !== undefined) return version;
  throw new Problem('record.missing', `There is no version ${number} of this recipe.`, {
    remedy: 'Choose one from its history.',
    where: 'number',
  });
}
