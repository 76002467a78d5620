import { z } from 'zod';
import { atMostBoundC, idSchema, recipeSchema } from './blanks.js';
import { cautionSchema } from './cautions.js';
import { estimateSchema } from './estimate.js';
import { pressStepSchema } from './ladders.js';

/** What a recipe rests on. */
export const recipeGroundSchema = z.object({
  /** stock: this program's list · typed: a person's word (the maker's leaflet, experience) · ladder: measured here · heat: carried over from another blank by the model of heat */
  kind: z.enum(['stock', 'typed', 'ladder', 'heat']),
  ladderId: z.string().nullable().default(null),
  /** For 'heat': the blank whose recipe works. */
  knownBlankId: idSchema.nullable().default(null),
  /** 'A ladder of 9 coupons of 3 March: it bears 8 s less and 14 s more.' */
  words: z.string().max(600),
});

/** A blank's recipe as it was or is; each change is a new one. Temperatures are true ones at the platen's face. */
export const recipeVersionSchema = z.object({
  blankId: idSchema,
  /** From 1, upwards. */
  number: z.number().int(),
  recipe: recipeSchema,
  ground: recipeGroundSchema,
  pressId: idSchema.nullable(),
  pressName: z.string().nullable(),
  createdAt: z.string(),
});

/** To make a recipe the blank's: from a ladder's window, from the model of heat, or typed. */
export const adoptRecipeSchema = z.discriminatedUnion('from', [
  z.object({ from: z.literal('ladder'), ladderId: z.string(), pressId: idSchema.optional() }),
  z.object({
    from: z.literal('heat'),
    knownBlankId: idSchema,
    dwellSeconds: z.number().int().min(5).max(1800),
    platenC: atMostBoundC.min(120),
    pressId: idSchema.optional(),
  }),
  z.object({ from: z.literal('typed'), recipe: recipeSchema, words: z.string().max(600).default('') }),
  /** An earlier version again. */
  z.object({ from: z.literal('version'), number: z.number().int().min(1) }),
]);

/** What a recipe means on a press: what to set. */
export const recipeOnPressSchema = z.object({
  blankId: idSchema,
  pressId: idSchema.nullable(),
  platenC: z.number(),
  /** Whole degrees to set for that true temperature. */
  setC: z.number(),
  offsetK: estimateSchema.nullable(),
  /** From the platen check it rests on; null: never measured. */
  checkId: z.string().nullable(),
  words: z.string(),
});

/** A start recipe is asked for: a blank never pressed here, carried over from one that works. */
export const suggestRequestSchema = z.object({
  blankId: idSchema,
  /** Left out: the blank most like it whose recipe rests on a ladder, else the stock recipe most like it. */
  knownBlankId: idSchema.optional(),
  pressId: idSchema.optional(),
  /** For the new blank; left out: the known recipe's. */
  platenC: atMostBoundC.min(120).optional(),
  /** The new blank's body, where the record's usual one is not right. */
  thicknessMm: z.number().min(0.05).max(60).optional(),
  knownThicknessMm: z.number().min(0.05).max(60).optional(),
});
export const recipeSuggestionSchema = z.object({
  blankId: idSchema,
  knownBlankId: idSchema,
  knownBlankName: z.string(),
  knownRecipe: recipeSchema,
  platenC: z.number(),
  setC: z.number(),
  /** Null when the dose is not reached in a time worth considering. */
  dwellSeconds: estimateSchema.nullable(),
  /** What it was computed with, in words: materials, thicknesses, joints guessed or fitted. */
  assumed: z.array(z.string()),
  sentences: z.array(z.string()),
  cautions: z.array(cautionSchema),
  /** Coupons worth pressing to make it sure. */
  ladder: z.array(pressStepSchema),
});

export type RecipeGround = z.infer<typeof recipeGroundSchema>;
export type RecipeVersion = z.infer<typeof recipeVersionSchema>;
export type AdoptRecipe = z.input<typeof adoptRecipeSchema>;
export type RecipeOnPress = z.infer<typeof recipeOnPressSchema>;
export type SuggestRequest = z.input<typeof suggestRequestSchema>;
export type RecipeSuggestion = z.infer<typeof recipeSuggestionSchema>;
