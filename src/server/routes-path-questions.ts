import { z } from 'zod';
import {
  artworkColoursSchema,
  colourAnswerSchema,
  colourPathSchema,
  colourQuestionSchema,
  pathLookSchema,
} from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';
import { filePolicy } from './headers.js';
import { idParams } from './routes-shop.js';

/** One colour path: what it is, what it says of colours, and the files it gives away. */
export function pathQuestionRoutes(app: App, shop: Shop): void {
  app.get(
    '/api/paths/:id',
    {
      schema: {
        summary: 'One colour path',
        tags: ['paths'],
        params: idParams,
        response: { 200: colourPathSchema, ...failures },
      },
    },
    (request) => shop.paths.get(request.params.id),
  );
  app.get(
    '/api/paths/:id/look',
    {
      schema: {
        summary: 'Everything there is to see of a path: gamut, greys, doubt',
        tags: ['paths'],
        params: idParams,
        response: { 200: pathLookSchema, ...failures },
      },
    },
    (request) => shop.paths.look(request.params.id),
  );
  app.post(
    '/api/paths/:id/colours',
    {
      schema: {
        summary: 'What comes out when colours are asked for',
        tags: ['paths'],
        params: idParams,
        body: colourQuestionSchema,
        response: { 200: z.array(colourAnswerSchema), ...failures },
      },
    },
    (request) => shop.paths.colours(request.params.id, request.body),
  );
  app.get(
    '/api/paths/:id/artwork/:artworkId',
    {
      schema: {
        summary: 'What the colours of an artwork suffer on this path',
        tags: ['paths'],
        params: idParams.extend({ artworkId: z.string().max(80) }),
        response: { 200: artworkColoursSchema, ...failures },
      },
    },
    (request) => shop.paths.artworkColours(request.params.id, request.params.artworkId),
  );
  app.get(
    '/api/paths/:id/profile',
    {
      schema: {
        summary: 'The path as an ICC profile',
        tags: ['paths'],
        params: idParams,
        querystring: z.object({
          icc: z.enum(['2', '4']).optional().describe('Left out: as the path has it'),
        }),
        produces: ['application/vnd.iccprofile'],
      },
    },
    async (request, reply) => {
      const path = await shop.paths.get(request.params.id);
      const version = request.query.icc ?? (path.iccVersion.startsWith('4') ? '4' : '2');
      const bytes = await shop.paths.profileAs(path, version === '4' ? 4 : 2);
      return reply
        .headers({
          'content-type': 'application/vnd.iccprofile',
          'content-disposition': `attachment; filename="${path.id}.icc"`,
          'content-security-policy': filePolicy,
        })
        .send(Buffer.from(bytes));
    },
  );
  app.get(
    '/api/paths/:id/measurements',
    {
      schema: {
        summary: 'The measurements of a path, as CGATS text',
        tags: ['paths'],
        params: idParams,
        produces: ['text/plain'],
      },
    },
    async (request, reply) => {
      const path = await shop.paths.get(request.params.id);
      const bytes = await shop.paths.measurements(path);
      return reply
        .headers({
          'content-type': 'text/plain; charset=utf-8',
          'content-disposition': `attachment; filename="${path.id}.txt"`,
          'content-security-policy': filePolicy,
        })
        .send(Buffer.from(bytes));
    },
  );
}
