import { readBackSchema } from '#contract';
import type { Shop } from '#shop';
import { type App, failures, goneSignal } from './context.js';
import { withUpload } from './upload.js';

/** A 1200 ppi scan of A3 as an uncompressed TIFF comes near this. */
export const maxPictureBytes = 1_000_000_000;

export function readBackRoutes(app: App, shop: Shop): void {
  app.post(
    '/api/read-back',
    {
      schema: {
        summary: 'What a scan or photo of a printed sheet tells',
        description: 'Multipart: `file` the picture, `subject` paper or piece (left out: paper).',
        tags: ['read-back'],
        consumes: ['multipart/form-data'],
        response: { 200: readBackSchema, ...failures },
      },
    },
    (request, reply) =>
      withUpload(shop, request, maxPictureBytes, (upload) =>
        shop.readBack(upload.path, upload.fields.subject ?? 'paper', goneSignal(reply)),
      ),
  );
}
