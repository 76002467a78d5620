import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import { colourPathSchema } from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';
import { idParams } from './routes-shop.js';
import { withUpload } from './upload.js';

const maxProfileBytes = 64_000_000;

export function pathRoutes(app: App, shop: Shop): void {
  app.get(
    '/api/paths',
    {
      schema: {
        summary: 'All colour paths',
        tags: ['paths'],
        response: { 200: z.array(colourPathSchema), ...failures },
      },
    },
    () => shop.paths.list(),
  );
  app.post(
    '/api/paths',
    {
      schema: {
        summary: 'Import an RGB output ICC profile as a colour path',
        description: 'Multipart: `file` the profile, `name` what to call it (left out: its own description).',
        tags: ['paths'],
        consumes: ['multipart/form-data'],
        response: { 201: colourPathSchema, ...failures },
      },
    },
    async (request, reply) => {
      const path = await withUpload(shop, request, maxProfileBytes, async (upload) =>
        shop.paths.importIcc(new Uint8Array(await readFile(upload.path)), upload.fields.name ?? ''),
      );
      return reply.code(201).send(path);
    },
  );
  app.delete(
    '/api/paths/:id',
    {
      schema: {
        summary: 'Remove a colour path',
        tags: ['paths'],
        params: idParams,
        response: { 204: z.null().describe('Removed'), ...failures },
      },
    },
    async (request, reply) => {
      await shop.paths.remove(request.params.id);
      return reply.code(204).send(null);
    },
  );
}
