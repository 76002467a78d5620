import { z } from 'zod';
import {
  jobSchema,
  sheetOutputOptionsSchema,
  testSheetOrderSchema,
  testSheetProposalSchema,
  testSheetSchema,
  testSheetSnapshotSchema,
} from '#contract';
import type { Shop } from '#shop';
import { type App, failures, goneSignal } from './context.js';
import { filePolicy } from './headers.js';
import { jsonIn } from './json-in.js';
import { maxPicture } from './routes-artwork.js';
import { idParams } from './routes-shop.js';
import { sendSheetFile } from './send-sheet-file.js';

const tags = ['test sheets'];

export function testSheetRoutes(app: App, shop: Shop): void {
  app.post(
    '/api/test-sheets/proposal',
    {
      schema: {
        summary: 'What the test sheet would be: whether it fits, how large its patches',
        tags,
        body: testSheetOrderSchema,
        response: { 200: testSheetProposalSchema, ...failures },
      },
    },
    (request) => shop.testSheets.propose(request.body),
  );

  app.get(
    '/api/test-sheets/preview',
    {
      schema: {
        summary: 'A picture of what the test sheet would be',
        description:
          'PNG. `paper`: as it lies on paper, mirrored, marks and all. `pressed`: as it reads once pressed. A colour ' +
          'sheet whose order names no seed is shown with patches of its kind.',
        tags,
        querystring: z.object({
          order: z.string().max(16_000).describe('A TestSheetOrder as JSON'),
          view: z.enum(['paper', 'pressed']).default('paper'),
          max: maxPicture.default(1400),
        }),
        produces: ['image/png'],
      },
    },
    async (request, reply) => {
      const { order, view, max } = request.query;
      const preview = await shop.testSheets.preview(jsonIn(order, 'order', 'a TestSheetOrder'), max, view);
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
    '/api/test-sheets',
    {
      schema: {
        summary: 'Make a test sheet and its press ticket',
        description: 'Answers with a job; its result is the id of the test sheet.',
        tags,
        body: z.object({ order: testSheetOrderSchema, output: sheetOutputOptionsSchema.prefault({}) }),
        response: { 202: jobSchema, ...failures },
      },
    },
    async (request, reply) => {
      // The guard has seen that the Host is this machine's.
      const address = `http://${request.headers.host}`;
      const job = await shop.testSheets.start(request.body.order, request.body.output, { address });
      return reply.code(202).header('location', `/api/jobs/${job.id}`).send(job);
    },
  );

  app.get(
    '/api/test-sheets',
    {
      schema: {
        summary: 'All test sheets, newest first',
        tags,
        response: { 200: z.array(testSheetSchema), ...failures },
      },
    },
    () => shop.testSheets.list(),
  );
  app.get(
    '/api/test-sheets/:id',
    {
      schema: {
        summary: 'One test sheet',
        tags,
        params: idParams,
        response: { 200: testSheetSchema, ...failures },
      },
    },
    (request) => shop.testSheets.get(request.params.id),
  );
  app.delete(
    '/api/test-sheets/:id',
    {
      schema: {
        summary: 'Remove a test sheet; its readings and the paths made from it stay',
        tags,
        params: idParams,
        response: { 204: z.null().describe('Removed'), ...failures },
      },
    },
    async (request, reply) => {
      await shop.testSheets.remove(request.params.id);
      return reply.code(204).send(null);
    },
  );
  app.get(
    '/api/test-sheets/:id/made-from',
    {
      schema: {
        summary: 'Blank, print setup and colour path of a test sheet, as they were when it was made',
        tags,
        params: idParams,
        response: { 200: testSheetSnapshotSchema, ...failures },
      },
    },
    (request) => shop.testSheets.snapshot(request.params.id),
  );
  app.get(
    '/api/test-sheets/:id/files/:fileName',
    {
      schema: {
        summary: 'A file of a test sheet, by the name in its record',
        tags,
        params: idParams.extend({ fileName: z.string().max(300) }),
        produces: ['application/pdf', 'image/png', 'image/tiff'],
      },
    },
    async (request, reply) =>
      sendSheetFile(reply, await shop.testSheets.openFile(request.params.id, request.params.fileName)),
  );
}
