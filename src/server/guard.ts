import type { FastifyInstance, FastifyRequest } from 'fastify';
import { Problem } from '#craft/problem';
import { problemDetails } from './problem-details.js';

/**
 * Keeps other web pages out. The server is bound to this machine, but any page in the person's browser can
 * send requests to it: a foreign Host header means a name was pointed here (DNS rebinding), a foreign Origin or
 * Sec-Fetch-Site on a changing call means another site sent it (cross-site request forgery).
 */
export function guard(app: FastifyInstance): void {
  app.addHook('onRequest', async (request, reply) => {
    const reason = refusal(request);
    if (reason === null) return;
    const problem = new Problem('request.invalid', reason, {
      remedy: 'Open the page at the address that the program printed, on this computer.',
    });
    return reply
      .code(403)
      .type('application/problem+json')
      .serializer(JSON.stringify)
      .send(problemDetails(problem, 403));
  });
}

function refusal(request: FastifyRequest): string | null {
  const host = hostName(request.headers.host);
  if (host === null || !localNames.has(host))
    return 'The call came under a name that is not this computer’s.';
  if (request.method === 'GET' || request.method === 'HEAD' || request.method === 'OPTIONS') return null;
  const { origin } = request.headers;
  if (origin !== undefined && origin !== `http://${request.headers.host}`)
    return 'The call came from another page.';
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none')
    return 'The call came from another site.';
  return null;
}

const localNames = new Set(['127.0.0.1', 'localhost', '[::1]']);

function hostName(host: string | undefined): string | null {
  const match = /^(\[[0-9a-f:]+\]|[a-z0-9.-]+)(?::\d{1,5})?$/i.exec(host ?? '');
  return match?.[1]?.toLowerCase() ?? null;
}
