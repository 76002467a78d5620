import { z } from 'zod';
import {
  adoptRecipeSchema,
  recipeOnPressSchema,
  recipeSuggestionSchema,
  recipeVersionSchema,
  suggestRequestSchema,
} from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';
import { idParams } from './routes-shop.js';

/** Versions of blanks' recipes, where new ones come from, and what they mean on a press. */
export function recipeRoutes(app: App, shop: Shop): void {
  app.get(
    '/api/blanks/:id/recipes',
    {
      schema: {
        summary: 'Versions of a blank’s recipe, newest first',
        description: 'The newest is the recipe in use.',
        tags: ['recipes'],
        params: idParams,
        response: { 200: z.array(recipeVersionSchema), ...failures },
      },
    },
    (request) => shop.recipes.versions(request.params.id),
  );
  app.post(
    '/api/blanks/:id/recipes',
    {
      schema: {
        summary: 'Make a recipe the blank’s',
        description: 'From a ladder’s window, the model of heat, typed, or an earlier version again.',
        tags: ['recipes'],
        params: idParams,
        body: adoptRecipeSchema,
        response: { 201: recipeVersionSchema, ...failures },
      },
    },
    async (request, reply) => reply.code(201).send(await shop.recipes.adopt(request.params.id, request.body)),
  );
  app.get(
    '/api/blanks/:id/recipes/on/:pressId',
    {
      schema: {
        summary: 'What to set on a press for a blank’s recipe',
        tags: ['recipes'],
        params: idParams.extend({ pressId: z.string().max(200) }),
        response: { 200: recipeOnPressSchema, ...failures },
      },
    },
    (request) => shop.recipes.onPress(request.params.id, request.params.pressId),
  );
  app.post(
    '/api/recipes/suggest',
    {
      schema: {
        summary: 'A start recipe for a blank never pressed',
        tags: ['recipes'],
        body: suggestRequestSchema,
        response: { 200: recipeSuggestionSchema, ...failures },
      },
    },
    (request) => shop.recipes.suggest(request.body),
  );
}
