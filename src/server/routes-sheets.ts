import { z } from 'zod';
import {
  jobSchema,
  sheetOutputOptionsSchema,
  sheetProposalSchema,
  sheetRequestSchema,
  sheetSchema,
  sheetSnapshotSchema,
} from '#contract';
import type { Shop } from '#shop';
import { type App, failures, goneSignal } from './context.js';
import { filePolicy } from './headers.js';
import { jsonIn } from './json-in.js';
import { maxPicture } from './routes-artwork.js';
import { idParams } from './routes-shop.js';
import { sendSheetFile } from './send-sheet-file.js';

export function sheetRoutes(app: App, shop: Shop): void {
  app.post(
    '/api/sheets/proposal',
    {
      schema: {
        summary: 'What the sheet would be, looked over',
        tags: ['sheets'],
        body: sheetRequestSchema,
        response: { 200: sheetProposalSchema, ...failures },
      },
    },
    (request) => shop.sheets.propose(request.body),
  );

  app.get(
    '/api/sheets/preview',
    {
      schema: {
        summary: 'A picture of what the sheet would be',
        description:
          'PNG. `paper`: the sheet as it lies on paper, mirrored, marks and all. `pressed`: the piece, reading the right ' +
          'way, through the colour path when it is known. `reach`: the colours the path cannot reach.',
        tags: ['sheets'],
        querystring: z.object({
          request: z.string().max(8000).describe('A SheetRequest as JSON'),
          view: z.enum(['paper', 'pressed', 'reach']).default('paper'),
          max: maxPicture.default(1400),
        }),
        produces: ['image/png'],
      },
    },
    async (request, reply) => {
      const { view, max } = request.query;
      const preview = await shop.sheets.preview(
        jsonIn(request.query.request, 'request', 'a SheetRequest'),
        view,
        max,
      );
      const tag = `"${preview.key}"`;
      reply.headers({
        etag: tag,
        'cache-control': 'private, no-cache',
        'content-security-policy': filePolicy,
      });
      if (request.headers['if-none-match'] === tag) return reply.code(304).send();
      return reply.type('image/png').send(await preview.draw(goneSignal(reply)));
    },
  );

  app.post(
    '/api/sheets',
    {
      schema: {
        summary: 'Make a sheet and its press ticket',
        description:
          'Answers with a job; its result is the id of the sheet. The same sheet again is the same sheet.',
        tags: ['sheets'],
        body: z.object({ request: sheetRequestSchema, output: sheetOutputOptionsSchema.prefault({}) }),
        response: { 202: jobSchema, ...failures },
      },
    },
    async (request, reply) => {
      // The guard has seen that the Host is this machine's.
      const recordBase = `http://${request.headers.host}/sheets`;
      const job = await shop.sheets.start(request.body.request, request.body.output, { recordBase });
      return reply.code(202).header('location', `/api/jobs/${job.id}`).send(job);
    },
  );

  app.get(
    '/api/sheets',
    {
      schema: {
        summary: 'All sheets made, newest first',
        tags: ['sheets'],
        response: { 200: z.array(sheetSchema), ...failures },
      },
    },
    () => shop.sheets.list(),
  );
  app.get(
    '/api/sheets/:id',
    {
      schema: {
        summary: 'One sheet',
        tags: ['sheets'],
        params: idParams,
        response: { 200: sheetSchema, ...failures },
      },
    },
    (request) => shop.sheets.get(request.params.id),
  );
  app.get(
    '/api/sheets/:id/made-from',
    {
      schema: {
        summary: 'Blank, print setup and colour path of a sheet, as they were when it was made',
        tags: ['sheets'],
        params: idParams,
        response: { 200: sheetSnapshotSchema, ...failures },
      },
    },
    (request) => shop.sheets.snapshot(request.params.id),
  );
  app.get(
    '/api/sheets/:id/files/:fileName',
    {
      schema: {
        summary: 'A file of a sheet, by the name in its record',
        tags: ['sheets'],
        params: idParams.extend({ fileName: z.string().max(300) }),
        produces: ['application/pdf', 'image/png', 'image/tiff'],
      },
    },
    async (request, reply) =>
      sendSheetFile(reply, await shop.sheets.openFile(request.params.id, request.params.fileName)),
  );
}
