import type { Socket } from 'node:net';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import type { ProblemDetails } from '#contract';
import { asProblem, isProblem, Problem, type ProblemKind, problemCodes } from '#craft/problem';
import { type Issue, invalid } from '#shop/validate';

const statusOf: Record<ProblemKind, number> = {
  input: 422,
  missing: 404,
  conflict: 409,
  limit: 413,
  disk: 507,
  cancelled: 499,
  internal: 500,
};

/** RFC 9457 problem details of a Problem. */
export function problemDetails(problem: Problem, status = statusOf[problem.kind]): ProblemDetails {
  return {
    type: `/problems/${problem.code}`,
    code: problem.code,
    title: problemCodes[problem.code].title,
    status,
    detail: problem.message,
    remedy: problem.remedy,
    where: problem.where ?? null,
  };
}

/** Every failure leaves as problem details; what is no Problem is told to `onFault` and leaves without its insides. */
export function answerProblems(app: FastifyInstance, onFault: (error: unknown) => void): void {
  app.setErrorHandler((error, _request, reply) => {
    const details = detailsOf(error, onFault);
    return reply
      .code(details.status)
      .type('application/problem+json')
      .serializer(JSON.stringify)
      .send(details);
  });
}

/** For faults before any route is known (an address that cannot be decoded), which pass the error handler by. */
export function answerEarly(error: unknown, reply: FastifyReply, onFault: (error: unknown) => void): void {
  const details = detailsOf(error, onFault);
  reply.code(details.status).type('application/problem+json').serializer(JSON.stringify).send(details);
}

/** For what is no HTTP, or breaks off in its head: answered on the bare connection, then it ends. */
export function answerNoHttp(error: Error & { code?: string }, socket: Socket): void {
  if (error.code === 'ECONNRESET' || !socket.writable) return void socket.destroy();
  const long = error.code === 'HPE_HEADER_OVERFLOW';
  const problem = new Problem(
    'request.invalid',
    long ? 'The address or the head of the request is too long.' : 'The request is not well formed.',
    { remedy: 'See /api/docs for how to ask.', cause: error },
  );
  const details = problemDetails(problem, long ? 431 : 400);
  const body = JSON.stringify(details);
  socket.end(
    `HTTP/1.1 ${details.status} ${long ? 'Request Header Fields Too Large' : 'Bad Request'}\r\n` +
      `Content-Type: application/problem+json\r\nContent-Length: ${Buffer.byteLength(body)}\r\n` +
      `Connection: close\r\n\r\n${body}`,
  );
}

function detailsOf(error: unknown, onFault: (error: unknown) => void): ProblemDetails {
  const { problem, status } = translate(error);
  if (problem.code === 'internal.fault') onFault(error);
  return problemDetails(problem, status);
}

function translate(error: unknown): { problem: Problem; status?: number } {
  if (isProblem(error)) return { problem: error };
  const { code, statusCode } = error as { code?: string; statusCode?: number };
  if (hasZodFastifySchemaValidationErrors(error)) {
    const issues = error.validation.map(
      (found): Issue => ({
        ...found.params,
        path: found.instancePath.split('/').filter(Boolean),
        message: found.message ?? 'is wrong',
        code: found.keyword,
      }),
    );
    return { problem: invalid(issues, 'The request was not understood') };
  }
  if (code === 'FST_ERR_CTP_BODY_TOO_LARGE') {
    const problem = new Problem('request.invalid', 'More was sent than any record takes.', {
      remedy: 'Send only what /api/docs names; pictures and profiles go as multipart form data.',
      cause: error,
    });
    return { problem, status: 413 };
  }
  if (statusCode !== undefined && statusCode >= 400 && statusCode < 500) {
    const problem = new Problem(
      'request.invalid',
      clientFault[statusCode] ?? 'The request was not understood.',
      {
        remedy: 'See /api/docs for what this address takes.',
        cause: error,
      },
    );
    return { problem, status: statusCode };
  }
  return { problem: asProblem(error) };
}

const clientFault: Record<number, string> = {
  400: 'The request is not well formed.',
  404: 'There is nothing at this address.',
  405: 'This address does not take that kind of call.',
  406: 'A file must be sent as multipart form data.',
  414: 'The address is too long.',
  415: 'The request is of a media type that is not taken here.',
};
