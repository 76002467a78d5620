import type {
  FastifyBaseLogger,
  FastifyInstance,
  FastifyReply,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { problemDetailsSchema } from '#contract';

/** Fastify whose handlers know their types from the zod schemas. */
export type App = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression<RawServerDefault>,
  RawReplyDefaultExpression<RawServerDefault>,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** The answers every route can give besides its own, for the documentation. */
export const failures = {
  '4xx': problemDetailsSchema.describe('What is wrong and what to do (RFC 9457)'),
  '5xx': problemDetailsSchema.describe('The machine or the program failed (RFC 9457)'),
} as const;

/** Set off when whoever asked has gone: a preview nobody waits for need not be drawn. */
export function goneSignal(reply: FastifyReply): AbortSignal {
  const controller = new AbortController();
  // The response's 'close', not the request's: that one comes as soon as the request has been read.
  reply.raw.once('close', () => {
    if (!reply.raw.writableFinished) controller.abort();
  });
  return controller.signal;
}
