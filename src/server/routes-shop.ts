import { z } from 'zod';
import { shopFactsSchema, shopPreferencesSchema } from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';

export function shopRoutes(app: App, shop: Shop): void {
  app.get(
    '/api/shop',
    {
      schema: {
        summary: 'The shop that is open',
        tags: ['shop'],
        response: { 200: shopFactsSchema, ...failures },
      },
    },
    () => shop.facts(),
  );

  app.put(
    '/api/shop/preferences',
    {
      schema: {
        summary: 'Keep units and theme',
        tags: ['shop'],
        body: shopPreferencesSchema,
        response: { 200: shopPreferencesSchema, ...failures },
      },
    },
    (request) => shop.preferences.save(request.body),
  );
}

/** Path parameter `id`, in whatever form: a wrong one names nothing, and that is what is said. */
export const idParams = z.object({ id: z.string().max(200) });
