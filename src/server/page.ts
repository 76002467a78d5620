import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { Problem } from '#craft/problem';

const builtPage = path.resolve(import.meta.dirname, '../../dist/web');

/** The built page; addresses of the page's own places get the page, addresses under /api that are none a Problem. */
export async function servePage(app: FastifyInstance, folder = builtPage): Promise<void> {
  const built = existsSync(path.join(folder, 'index.html'));
  if (built) {
    await app.register(fastifyStatic, {
      root: folder,
      index: 'index.html',
      // Built files under assets/ have their content's hash in their name; the page itself must always be asked for.
      setHeaders: (response, file) => {
        const hashed = file.split(path.sep).includes('assets');
        response.setHeader('cache-control', hashed ? 'public, max-age=31536000, immutable' : 'no-cache');
      },
      cacheControl: false,
    });
  }
  app.setNotFoundHandler((request, reply) => {
    const address = request.url.split('?')[0] ?? '';
    const wantsPage =
      (request.method === 'GET' || request.method === 'HEAD') && !/^\/(api|assets)(\/|$)/.test(address);
    if (wantsPage && built) {
      const page = readFileSync(path.join(folder, 'index.html'));
      reply.header('cache-control', 'no-cache').type('text/html; charset=utf-8').send(page);
      return;
    }
    throw wantsPage
      ? new Problem('file.missing', 'The page has not been built yet.', {
          remedy: 'Run “npm run build”, then load again.',
        })
      : new Problem('record.missing', 'There is nothing at this address.', {
          remedy: 'See /api/docs for the addresses there are.',
        });
  });
}
