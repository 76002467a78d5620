import { type Job, jobSchema } from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';
import { idParams } from './routes-shop.js';

/** Proxies and sleepy browsers drop silent connections; a comment line is no event. */
const heartbeatMs = 15_000;

export function jobRoutes(app: App, shop: Shop): void {
  app.get(
    '/api/jobs/:id',
    {
      schema: {
        summary: 'How a job stands',
        tags: ['jobs'],
        params: idParams,
        response: { 200: jobSchema, ...failures },
      },
    },
    (request) => shop.jobs.get(request.params.id),
  );
  app.delete(
    '/api/jobs/:id',
    {
      schema: {
        summary: 'Cancel a job',
        tags: ['jobs'],
        params: idParams,
        response: { 200: jobSchema, ...failures },
      },
    },
    (request) => shop.jobs.cancel(request.params.id),
  );
  app.get(
    '/api/jobs/:id/events',
    {
      schema: {
        summary: 'A job as server-sent events',
        description:
          'Events `progress` with the Job as data, then one `done`, `failed` or `cancelled` with the Job. Each event ' +
          'tells the whole state, so a connection that was lost is simply opened again.',
        tags: ['jobs'],
        params: idParams,
        produces: ['text/event-stream'],
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      // A job that is not there is answered as a Problem, before the stream begins.
      await shop.jobs.get(id);
      reply.hijack();
      const stream = reply.raw;
      const headers = Object.entries(reply.getHeaders()).filter(
        (entry): entry is [string, string] => typeof entry[1] === 'string',
      );
      stream.writeHead(200, {
        ...Object.fromEntries(headers),
        'content-type': 'text/event-stream; charset=utf-8',
        'cache-control': 'no-store',
        connection: 'keep-alive',
        'x-accel-buffering': 'no',
      });
      let stop: (() => void) | undefined;
      const heartbeat = setInterval(() => stream.write(': still here\n\n'), heartbeatMs);
      const end = () => {
        clearInterval(heartbeat);
        stop?.();
      };
      stream.on('close', end);
      stream.on('error', end);
      let ended = false;
      stop = await shop.jobs.subscribe(id, (job) => {
        if (ended || stream.destroyed) return;
        stream.write(eventText(job));
        if (hasEnded(job)) {
          ended = true;
          stream.end();
        }
      });
      if (stream.destroyed || ended) end();
    },
  );
}

function hasEnded(job: Job): boolean {
  return job.state === 'done' || job.state === 'failed' || job.state === 'cancelled';
}

/** One event as the HTML Standard's 'server-sent events' writes it. */
function eventText(job: Job): string {
  const name = hasEnded(job) ? job.state : 'progress';
  return `event: ${name}\ndata: ${JSON.stringify(job)}\n\n`;
}
