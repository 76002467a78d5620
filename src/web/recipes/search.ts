import { z } from 'zod';
import { idSchema } from '#contract';

/** On which press the recipe is looked at. */
export const recipeSearchSchema = z.object({ press: idSchema.optional().catch(undefined) });
