import type { FastifyInstance } from 'fastify';

/**
 * What the page may do: only what comes from here. Inline styles, because the component library sets them on
 * elements; blob: and data: pictures, because textures of the piece and dropped files are shown before they
 * are sent; WebAssembly and workers of our own.
 */
export const pagePolicy = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' blob: data:",
  "font-src 'self' data:",
  "connect-src 'self' blob: data:",
  "worker-src 'self' blob:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');

/** What is served as a picture or a file does nothing at all, should a browser ever show it as a page. */
export const filePolicy = "default-src 'none'; style-src 'unsafe-inline'; sandbox";

export function securityHeaders(app: FastifyInstance): void {
  app.addHook('onRequest', async (_request, reply) => {
    reply.headers({
      'content-security-policy': pagePolicy,
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
      'permissions-policy': 'camera=(), microphone=(), geolocation=()',
      'x-frame-options': 'DENY',
    });
  });
}
