import { z } from 'zod';
import { blankSchema, printSetupSchema } from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';
import { entityTag, expected, ifMatch, removed } from './entity-tag.js';
import { idParams } from './routes-shop.js';

export function catalogueRoutes(app: App, shop: Shop): void {
  app.get(
    '/api/blanks',
    {
      schema: {
        summary: 'All blanks',
        tags: ['blanks'],
        response: { 200: z.array(blankSchema), ...failures },
      },
    },
    () => shop.blanks.list(),
  );
  app.get(
    '/api/blanks/:id',
    {
      schema: {
        summary: 'One blank',
        tags: ['blanks'],
        params: idParams,
        response: { 200: blankSchema, ...failures },
      },
    },
    async (request, reply) => {
      const blank = await shop.blanks.get(request.params.id);
      reply.header('etag', entityTag(blank));
      return blank;
    },
  );
  app.put(
    '/api/blanks/:id',
    {
      schema: {
        summary: 'Add or replace a blank',
        description: 'With If-Match, only when the record still has that entity tag.',
        tags: ['blanks'],
        params: idParams,
        headers: ifMatch,
        body: blankSchema,
        response: { 200: blankSchema, ...failures },
      },
    },
    async (request, reply) => {
      const blank = await shop.blanks.save(request.params.id, request.body, {
        expected: expected(request.headers['if-match']),
      });
      reply.header('etag', entityTag(blank));
      return blank;
    },
  );
  app.delete(
    '/api/blanks/:id',
    {
      schema: {
        summary: 'Remove a blank',
        tags: ['blanks'],
        params: idParams,
        response: { 204: removed, ...failures },
      },
    },
    async (request, reply) => {
      await shop.blanks.remove(request.params.id);
      return reply.code(204).send(null);
    },
  );

  app.get(
    '/api/setups',
    {
      schema: {
        summary: 'All print setups',
        tags: ['setups'],
        response: { 200: z.array(printSetupSchema), ...failures },
      },
    },
    () => shop.setups.list(),
  );
  app.get(
    '/api/setups/:id',
    {
      schema: {
        summary: 'One print setup',
        tags: ['setups'],
        params: idParams,
        response: { 200: printSetupSchema, ...failures },
      },
    },
    async (request, reply) => {
      const setup = await shop.setups.get(request.params.id);
      reply.header('etag', entityTag(setup));
      return setup;
    },
  );
  app.put(
    '/api/setups/:id',
    {
      schema: {
        summary: 'Add or replace a print setup',
        description: 'With If-Match, only when the record still has that entity tag.',
        tags: ['setups'],
        params: idParams,
        headers: ifMatch,
        body: printSetupSchema,
        response: { 200: printSetupSchema, ...failures },
      },
    },
    async (request, reply) => {
      const setup = await shop.setups.save(request.params.id, request.body, {
        expected: expected(request.headers['if-match']),
      });
      reply.header('etag', entityTag(setup));
      return setup;
    },
  );
  app.delete(
    '/api/setups/:id',
    {
      schema: {
        summary: 'Remove a print setup',
        tags: ['setups'],
        params: idParams,
        response: { 204: removed, ...failures },
      },
    },
    async (request, reply) => {
      await shop.setups.remove(request.params.id);
      return reply.code(204).send(null);
    },
  );
}
