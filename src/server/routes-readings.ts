import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import { jobSchema, readingPatchSchema, readingSchema } from '#contract';
import { Problem } from '#craft/problem';
import type { Shop } from '#shop';
import { maxMeasurementBytes } from '#shop/paths';
import { type App, failures } from './context.js';
import { filePolicy } from './headers.js';
import { jsonIn } from './json-in.js';
import { maxPicture } from './routes-artwork.js';
import { maxPictureBytes } from './routes-read-back.js';
import { idParams } from './routes-shop.js';
import { type Upload, withUpload } from './upload.js';

const tags = ['readings'];

export function readingRoutes(app: App, shop: Shop): void {
  app.post(
    '/api/readings',
    {
      schema: {
        summary: 'Read a scan or photo of a test sheet',
        description:
          'Multipart: `file` the picture; all else may be left out: `subject` paper or piece, `sheetId` the sheet that is ' +
          'meant, `readerId` the scanner or phone, `from` scan or photo, and for a reference card lying in the picture ' +
          '`card` (JSON `{"corners": [[x, y], …]}`, its four outer corners in pixels of the upright picture, going round) ' +
          'with `cardValues`, its CGATS file. Answers with a job; its result is the id of the reading.',
        tags,
        consumes: ['multipart/form-data'],
        response: { 202: jobSchema, ...failures },
      },
    },
    async (request, reply) => {
      const job = await withUpload(
        shop,
        request,
        maxPictureBytes,
        async (upload) => shop.readings.start(upload.path, await aboutOf(upload)),
        ['cardValues'],
      );
      return reply.code(202).header('location', `/api/jobs/${job.id}`).send(job);
    },
  );
  app.post(
    '/api/readings/instrument',
    {
      schema: {
        summary: 'Take in an instrument’s file of a test sheet’s patches',
        description:
          'Multipart: `file` CGATS or CSV, `sheetId` the sheet, `subject` paper or piece (left out: piece).',
        tags,
        consumes: ['multipart/form-data'],
        response: { 201: readingSchema, ...failures },
      },
    },
    async (request, reply) => {
      const reading = await withUpload(
        shop,
        request,
        maxMeasurementBytes,
        async ({ path, fileName, fields }) =>
          shop.readings.importFile(new Uint8Array(await readFile(path)), {
            fileName,
            sheetId: fields.sheetId ?? '',
            ...(fields.subject === undefined ? {} : { subject: fields.subject }),
          }),
      );
      return reply.code(201).send(reading);
    },
  );

  app.get(
    '/api/readings',
    {
      schema: {
        summary: 'All readings, or those of one test sheet, newest first',
        tags,
        querystring: z.object({ sheetId: z.string().max(200).optional() }),
        response: { 200: z.array(readingSchema), ...failures },
      },
    },
    (request) => shop.readings.list(request.query),
  );
  app.get(
    '/api/readings/:id',
    {
      schema: {
        summary: 'One reading',
        tags,
        params: idParams,
        response: { 200: readingSchema, ...failures },
      },
    },
    (request) => shop.readings.get(request.params.id),
  );
  app.delete(
    '/api/readings/:id',
    {
      schema: {
        summary: 'Remove a reading; paths made from it stay',
        tags,
        params: idParams,
        response: { 204: z.null().describe('Removed'), ...failures },
      },
    },
    async (request, reply) => {
      await shop.readings.remove(request.params.id);
      return reply.code(204).send(null);
    },
  );
  app.get(
    '/api/readings/:id/patches',
    {
      schema: {
        summary: 'Every patch of a reading, in the order of the sheet',
        tags,
        params: idParams,
        response: { 200: z.array(readingPatchSchema), ...failures },
      },
    },
    (request) => shop.readings.patches(request.params.id),
  );
  app.post(
    '/api/readings/:id/colours',
    {
      schema: {
        summary: 'Tell the colours of a reading anew',
        description:
          'By a reader as it is calibrated now, or (`readerId` null) by the picture’s own word: what was seen stays, its ' +
          'colours and grade are worked out again.',
        tags,
        params: idParams,
        body: z.object({ readerId: z.string().max(200).nullable() }),
        response: { 200: readingSchema, ...failures },
      },
    },
    (request) => shop.readings.convertAgain(request.params.id, request.body.readerId),
  );
  app.get(
    '/api/readings/:id/overlay',
    {
      schema: {
        summary: 'The picture with what was read drawn over it, JPEG',
        tags,
        params: idParams,
        querystring: z.object({ max: maxPicture.optional() }),
        produces: ['image/jpeg'],
      },
    },
    async (request, reply) => {
      const { max } = request.query;
      const { bytes, contentHash } = await shop.readings.overlay(request.params.id, max);
      const tag = `"${contentHash.slice(0, 32)}-${max ?? 'all'}"`;
      reply.headers({
        etag: tag,
        'cache-control': 'private, no-cache',
        'content-security-policy': filePolicy,
      });
      if (request.headers['if-none-match'] === tag) return reply.code(304).send();
      return reply.type('image/jpeg').send(Buffer.from(bytes));
    },
  );
  app.get(
    '/api/readings/:id/measurements',
    {
      schema: {
        summary: 'The sound patches as a CGATS text that says its grade',
        tags,
        params: idParams,
        produces: ['text/plain'],
      },
    },
    async (request, reply) => {
      const { id, sheetId } = await shop.readings.get(request.params.id);
      const bytes = await shop.readings.measurements(id);
      return reply
        .headers({
          'content-disposition': `attachment; filename="reading-${sheetId}.txt"`,
          'content-security-policy': filePolicy,
          'cache-control': 'private, no-cache',
        })
        .type('text/plain; charset=utf-8')
        .send(Buffer.from(bytes));
    },
  );
}

async function aboutOf({ fileName, fields, more }: Upload) {
  const values = more.cardValues;
  if ((values === undefined) !== (fields.card === undefined)) {
    throw new Problem('request.invalid', 'A card in the picture needs both its corners and its values.', {
      remedy: 'Send “card” and “cardValues” together.',
      where: values === undefined ? 'cardValues' : 'card',
    });
  }
  const said = (name: string) => (fields[name] ? { [name]: fields[name] } : {});
  return {
    fileName,
    ...said('subject'),
    ...said('sheetId'),
    ...said('readerId'),
    ...said('from'),
    ...(values === undefined
      ? {}
      : {
          card: {
            corners: cornersIn(jsonIn(fields.card ?? 'null', 'card', 'the corners of the card')),
            values: new Uint8Array(await readFile(values.path)),
          },
        }),
  };
}

const cornersIn = (card: unknown): unknown =>
  card !== null && typeof card === 'object' && 'corners' in card ? card.corners : card;
