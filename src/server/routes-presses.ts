import { z } from 'zod';
import { platenCheckInputSchema, platenCheckSchema, pressSchema } from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';
import { removed } from './entity-tag.js';
import { recordRoutes } from './record-routes.js';
import { idParams } from './routes-shop.js';

const tags = ['presses'];
const checkParams = idParams.extend({ checkId: z.string().min(1).max(100) });

export function pressRoutes(app: App, shop: Shop): void {
  recordRoutes(app, shop.presses, {
    tag: 'presses',
    schema: pressSchema,
    all: 'All presses, mug presses and ovens',
    one: 'press',
    removedToo: ' and its platen checks',
  });
  app.get(
    '/api/presses/:id/checks',
    {
      schema: {
        summary: 'Platen checks of a press, newest first',
        tags,
        params: idParams,
        response: { 200: z.array(platenCheckSchema), ...failures },
      },
    },
    (request) => shop.presses.checks(request.params.id),
  );
  app.post(
    '/api/presses/:id/checks',
    {
      schema: {
        summary: 'Temperatures of the platen, as they were read',
        description: 'Answers with the offset between true and set temperature, and a map.',
        tags,
        params: idParams,
        body: platenCheckInputSchema,
        response: { 201: platenCheckSchema, ...failures },
      },
    },
    async (request, reply) =>
      reply.code(201).send(await shop.presses.addCheck(request.params.id, request.body)),
  );
  app.delete(
    '/api/presses/:id/checks/:checkId',
    {
      schema: {
        summary: 'Remove a platen check',
        tags,
        params: checkParams,
        response: { 204: removed, ...failures },
      },
    },
    async (request, reply) => {
      await shop.presses.removeCheck(request.params.id, request.params.checkId);
      return reply.code(204).send(null);
    },
  );
}
