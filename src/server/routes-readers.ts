import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import { readerInputSchema, readerSchema } from '#contract';
import { Problem } from '#craft/problem';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';
import { jsonIn } from './json-in.js';
import { maxPictureBytes } from './routes-read-back.js';
import { idParams } from './routes-shop.js';
import { type Upload, withUpload } from './upload.js';

const tags = ['readers'];

export function readerRoutes(app: App, shop: Shop): void {
  app.get(
    '/api/readers',
    {
      schema: {
        summary: 'All scanners and phones',
        tags,
        response: { 200: z.array(readerSchema), ...failures },
      },
    },
    () => shop.readers.list(),
  );
  app.put(
    '/api/readers/:id',
    {
      schema: {
        summary: 'Add or change a scanner or phone; its calibration stays',
        tags,
        params: idParams,
        body: readerInputSchema,
        response: { 200: readerSchema, ...failures },
      },
    },
    (request) => shop.readers.put(request.params.id, request.body),
  );
  app.delete(
    '/api/readers/:id',
    {
      schema: {
        summary: 'Remove a scanner or phone; readings made with it stay',
        tags,
        params: idParams,
        response: { 204: z.null().describe('Removed'), ...failures },
      },
    },
    async (request, reply) => {
      await shop.readers.remove(request.params.id);
      return reply.code(204).send(null);
    },
  );
  app.post(
    '/api/readers/:id/calibration',
    {
      schema: {
        summary: 'Calibrate a scanner or phone',
        description:
          'Multipart, either: `readingId` a reading made with it and `file` an instrument’s file of the same sheet (same ' +
          'ink); or: `picture` of a reference target, `corners` (JSON, four outer corners of its field of patches in ' +
          'pixels of the upright picture, going round) and `file` the target’s CGATS reference.',
        tags,
        params: idParams,
        consumes: ['multipart/form-data'],
        response: { 200: readerSchema, ...failures },
      },
    },
    (request) =>
      withUpload(shop, request, maxPictureBytes, (upload) => calibrate(shop, request.params.id, upload), [
        'picture',
      ]),
  );
}

async function calibrate(shop: Shop, id: string, { path, fields, more }: Upload) {
  await shop.readers.get(id);
  const reference = new Uint8Array(await readFile(path));
  const { picture } = more;
  if (picture !== undefined) {
    const corners = cornersIn(jsonIn(fields.corners ?? 'null', 'corners', 'four corners'));
    return shop.readers.calibrateFromTarget(id, { source: picture.path, corners, reference });
  }
  if (!fields.readingId) {
    throw new Problem('request.invalid', 'There is nothing that the reader saw.', {
      remedy: 'Send “readingId”, or the “picture” of a target with its “corners”.',
      where: 'readingId',
    });
  }
  return shop.readings.calibrateReader(id, fields.readingId, reference);
}

const cornersSchema = z.array(z.tuple([z.number(), z.number()])).length(4);

function cornersIn(value: unknown) {
  const corners = cornersSchema.safeParse(value);
  if (corners.success) return corners.data.map(([x, y]) => ({ x, y }));
  throw new Problem('request.invalid', 'The corners are not four points.', {
    remedy: 'Send [[x, y], [x, y], [x, y], [x, y]], pixels of the upright picture, going round.',
    where: 'corners',
  });
}
