import swagger from '@fastify/swagger';
import swaggerUi from '@fastify/swagger-ui';
import type { FastifyInstance } from 'fastify';
import { jsonSchemaTransform } from 'fastify-type-provider-zod';
import { programVersion } from '#shop';

/** OpenAPI from the routes' own schemas: to read at /api/docs, for programs at /api/docs/json. */
export async function apiDocs(app: FastifyInstance): Promise<void> {
  await app.register(swagger, {
    openapi: {
      info: {
        title: 'Dyewright',
        description: 'Artwork in, a correct dye-sublimation sheet out. Served on this computer only.',
        version: programVersion,
      },
    },
    transform: jsonSchemaTransform,
  });
  await app.register(swaggerUi, { routePrefix: '/api/docs', staticCSP: false });
}
