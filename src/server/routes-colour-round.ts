import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import {
  colourPathSchema,
  eyePicksSchema,
  gradeSchema,
  idSchema,
  jobSchema,
  learnRequestSchema,
  pathCheckSchema,
  pathStandingSchema,
} from '#contract';
import type { Shop } from '#shop';
import { maxMeasurementBytes } from '#shop/paths';
import { checked } from '#shop/validate';
import { type App, failures } from './context.js';
import { idParams } from './routes-shop.js';
import { withUpload } from './upload.js';

/** Fields beside a file of measurements; a form sends what was left empty as ''. */
const aboutFileSchema = z.object({
  name: z.string().max(120).default(''),
  setupId: idSchema.optional(),
  blankId: idSchema.optional(),
  grade: gradeSchema.optional(),
});

/** From readings to colour paths, and checks of what they keep. */
export function colourRoundRoutes(app: App, shop: Shop): void {
  app.post(
    '/api/paths/measured',
    {
      schema: {
        summary: 'Learn a colour path from readings',
        description: 'Answers with a job; its result is the id of the colour path.',
        tags: ['paths'],
        body: learnRequestSchema,
        response: { 202: jobSchema, ...failures },
      },
    },
    async (request, reply) => {
      const job = await shop.colourRound.startLearn(request.body);
      return reply.code(202).header('location', `/api/jobs/${job.id}`).send(job);
    },
  );
  app.post(
    '/api/paths/measured-file',
    {
      schema: {
        summary: "Learn a colour path from an instrument's file",
        description:
          'Multipart: `file` CGATS or CSV with RGB device values and colours, `name`, `setupId` to use it at once, ' +
          '`blankId` it was pressed on, `grade` where the file does not say. Answers with a job.',
        tags: ['paths'],
        consumes: ['multipart/form-data'],
        response: { 202: jobSchema, ...failures },
      },
    },
    async (request, reply) => {
      const job = await withUpload(shop, request, maxMeasurementBytes, async (upload) => {
        const given = Object.fromEntries(Object.entries(upload.fields).filter(([, value]) => value !== ''));
        const about = checked(aboutFileSchema, given, 'What is said of the file cannot be understood');
        return shop.colourRound.startLearnFile(new Uint8Array(await readFile(upload.path)), {
          ...about,
          name: about.name || upload.fileName.replace(/\.[^.]*$/, ''),
        });
      });
      return reply.code(202).header('location', `/api/jobs/${job.id}`).send(job);
    },
  );
  app.post(
    '/api/paths/by-eye',
    {
      schema: {
        summary: 'A colour path from picks on a grey sheet',
        tags: ['paths'],
        body: eyePicksSchema,
        response: { 201: colourPathSchema, ...failures },
      },
    },
    async (request, reply) => reply.code(201).send(await shop.colourRound.byEye(request.body)),
  );
  app.get(
    '/api/paths/:id/checks',
    {
      schema: {
        summary: 'Checks of a path, newest first',
        tags: ['paths'],
        params: idParams,
        response: { 200: z.array(pathCheckSchema), ...failures },
      },
    },
    (request) => shop.colourRound.checks(request.params.id),
  );
  app.post(
    '/api/paths/:id/checks',
    {
      schema: {
        summary: 'Check a path by the reading of its check sheet',
        tags: ['paths'],
        params: idParams,
        body: z.object({ readingId: z.string().max(80) }),
        response: { 201: pathCheckSchema, ...failures },
      },
    },
    async (request, reply) =>
      reply.code(201).send(await shop.colourRound.check(request.params.id, request.body.readingId)),
  );
  app.get(
    '/api/paths/:id/standing',
    {
      schema: {
        summary: 'Whether a path still fits how things are printed and pressed',
        tags: ['paths'],
        params: idParams,
        querystring: z.object({ setupId: idSchema.optional(), blankId: idSchema.optional() }),
        response: { 200: pathStandingSchema, ...failures },
      },
    },
    (request) => shop.colourRound.standing(request.params.id, request.query),
  );
}
