import type {
  FastifyBaseLogger,
  FastifyInstance,
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
