import { z } from 'zod';
import { evennessReadingSchema, idSchema, jobSchema } from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';
import { maxPictureBytes } from './routes-read-back.js';
import { idParams } from './routes-shop.js';
import { withUpload } from './upload.js';

const tags = ['evenness'];

/** Readings of evenness sheets. */
export function evennessRoutes(app: App, shop: Shop): void {
  app.post(
    '/api/evenness',
    {
      schema: {
        summary: 'Read a scan of an evenness sheet',
        description:
          'Multipart: `file` the picture; `sheetId` the sheet that is meant, `pressId` the press it was pressed on and ' +
          '`readerId` the scanner may be left out. Answers with a job; its result is the id of the reading.',
        tags,
        consumes: ['multipart/form-data'],
        response: { 202: jobSchema, ...failures },
      },
    },
    async (request, reply) => {
      const job = await withUpload(shop, request, maxPictureBytes, ({ path, fileName, fields }) =>
        shop.evenness.start(path, {
          fileName,
          sheetId: fields.sheetId,
          readerId: fields.readerId,
          pressId: fields.pressId,
        }),
      );
      return reply.code(202).header('location', `/api/jobs/${job.id}`).send(job);
    },
  );
  app.get(
    '/api/evenness',
    {
      schema: {
        summary: 'Readings of evenness, of one sheet or press or all, newest first',
        tags,
        querystring: z.object({ sheetId: z.string().max(200).optional(), pressId: idSchema.optional() }),
        response: { 200: z.array(evennessReadingSchema), ...failures },
      },
    },
    (request) => shop.evenness.list(request.query),
  );
  app.get(
    '/api/evenness/:id',
    {
      schema: {
        summary: 'One reading of evenness',
        tags,
        params: idParams,
        response: { 200: evennessReadingSchema, ...failures },
      },
    },
    (request) => shop.evenness.get(request.params.id),
  );
  app.delete(
    '/api/evenness/:id',
    {
      schema: {
        summary: 'Remove a reading of evenness',
        tags,
        params: idParams,
        response: { 204: z.null().describe('Removed'), ...failures },
      },
    },
    async (request, reply) => {
      await shop.evenness.remove(request.params.id);
      return reply.code(204).send(null);
    },
  );
}
