import { z } from 'zod';
import {
  blackAnswerSchema,
  blackQuestionSchema,
  idSchema,
  jobSchema,
  ladderNotesSchema,
  ladderSchema,
  windowCoursesSchema,
  windowFieldSchema,
} from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';
import { maxPictureBytes } from './routes-read-back.js';
import { withUpload } from './upload.js';

const tags = ['ladders'];
const sheetParams = z.object({ sheetId: z.string().max(200) });

/** Ladders of coupons: read, judged, and the window they tell. */
export function ladderRoutes(app: App, shop: Shop): void {
  app.get(
    '/api/ladders',
    {
      schema: {
        summary: 'All ladders, or those of one blank, last touched first',
        tags,
        querystring: z.object({ blankId: idSchema.optional() }),
        response: { 200: z.array(ladderSchema), ...failures },
      },
    },
    (request) => shop.ladders.list(request.query),
  );
  app.post(
    '/api/ladders/pictures',
    {
      schema: {
        summary: 'Read coupons of a ladder from a scan or photo',
        description:
          'Multipart: `file` the picture; `sheetId` the ladder that is meant and `readerId` the scanner or phone may be ' +
          'left out. Answers with a job; its result is the id of the ladder.',
        tags,
        consumes: ['multipart/form-data'],
        response: { 202: jobSchema, ...failures },
      },
    },
    async (request, reply) => {
      const job = await withUpload(shop, request, maxPictureBytes, ({ path, fileName, fields }) =>
        shop.ladders.start(path, { fileName, sheetId: fields.sheetId, readerId: fields.readerId }),
      );
      return reply.code(202).header('location', `/api/jobs/${job.id}`).send(job);
    },
  );
  app.get(
    '/api/ladders/:sheetId',
    {
      schema: {
        summary: 'One ladder: plan, coupons, window',
        tags,
        params: sheetParams,
        response: { 200: ladderSchema, ...failures },
      },
    },
    (request) => shop.ladders.get(request.params.sheetId),
  );
  app.delete(
    '/api/ladders/:sheetId',
    {
      schema: {
        summary: 'Forget what was read and judged of a ladder; its sheet stays',
        tags,
        params: sheetParams,
        response: { 204: z.null().describe('Removed'), ...failures },
      },
    },
    async (request, reply) => {
      await shop.ladders.remove(request.params.sheetId);
      return reply.code(204).send(null);
    },
  );
  app.post(
    '/api/ladders/:sheetId/notes',
    {
      schema: {
        summary: 'Judgements by eye, what was really set, coupons left out',
        tags,
        params: sheetParams,
        body: ladderNotesSchema,
        response: { 200: ladderSchema, ...failures },
      },
    },
    (request) => shop.ladders.note(request.params.sheetId, request.body),
  );
  app.delete(
    '/api/ladders/:sheetId/pictures/:pictureId',
    {
      schema: {
        summary: 'Take a picture out; earlier pictures of the same coupons count again',
        tags,
        params: sheetParams.extend({ pictureId: z.string().max(200) }),
        response: { 200: ladderSchema, ...failures },
      },
    },
    (request) => shop.ladders.removePicture(request.params.sheetId, request.params.pictureId),
  );
  app.get(
    '/api/ladders/:sheetId/field',
    {
      schema: {
        summary: 'The window over temperature and time, for drawing',
        tags,
        params: sheetParams,
        response: { 200: windowFieldSchema, ...failures },
      },
    },
    (request) => shop.ladders.field(request.params.sheetId),
  );
  app.get(
    '/api/ladders/:sheetId/courses',
    {
      schema: {
        summary: 'What was measured over time at the recipe’s temperature, for drawing',
        tags,
        params: sheetParams,
        response: { 200: windowCoursesSchema, ...failures },
      },
    },
    (request) => shop.ladders.courses(request.params.sheetId),
  );
  app.post(
    '/api/press/black',
    {
      schema: {
        summary: 'Too little or too much, from one black',
        tags,
        body: blackQuestionSchema,
        response: { 200: blackAnswerSchema, ...failures },
      },
    },
    (request) => shop.ladders.verdict(request.body),
  );
}
