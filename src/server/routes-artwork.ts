import { z } from 'zod';
import { artworkSchema } from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';
import { filePolicy } from './headers.js';
import { idParams } from './routes-shop.js';
import { withUpload } from './upload.js';

/** Longest side of a picture for the screen, pixels. */
export const maxPicture = z.coerce.number().int().min(16).max(4000);

export function artworkRoutes(app: App, shop: Shop): void {
  app.get(
    '/api/artwork',
    {
      schema: {
        summary: 'All artwork, newest first',
        tags: ['artwork'],
        response: { 200: z.array(artworkSchema), ...failures },
      },
    },
    () => shop.artwork.list(),
  );
  app.post(
    '/api/artwork',
    {
      schema: {
        summary: 'Bring artwork in',
        description: 'Multipart: `file` the picture. The same bytes again give the record there is.',
        tags: ['artwork'],
        consumes: ['multipart/form-data'],
        response: { 201: artworkSchema, ...failures },
      },
    },
    async (request, reply) => {
      const artwork = await withUpload(shop, request, shop.limits.maxBytes, (upload) =>
        shop.artwork.takeOver(upload.path, upload.fileName),
      );
      return reply.code(201).send(artwork);
    },
  );
  app.get(
    '/api/artwork/:id',
    {
      schema: {
        summary: 'One artwork',
        tags: ['artwork'],
        params: idParams,
        response: { 200: artworkSchema, ...failures },
      },
    },
    (request) => shop.artwork.get(request.params.id),
  );
  app.get(
    '/api/artwork/:id/picture',
    {
      schema: {
        summary: 'The artwork as sRGB PNG or JPEG, alpha kept',
        tags: ['artwork'],
        params: idParams,
        querystring: z.object({ max: maxPicture.default(1200) }),
        produces: ['image/png', 'image/jpeg'],
      },
    },
    async (request, reply) => {
      const picture = await shop.artwork.picture(request.params.id, request.query.max);
      // Artwork is named by its content, so a picture of it never changes.
      return reply
        .headers({
          'cache-control': 'private, max-age=31536000, immutable',
          'content-security-policy': filePolicy,
        })
        .type(picture.mediaType)
        .send(picture.bytes);
    },
  );
}
