import { z } from 'zod';
import { type App, failures } from './context.js';
import { entityTag, expected, ifMatch, removed } from './entity-tag.js';
import { idParams } from './routes-shop.js';

/** Records that a person keeps: listed, looked at, saved under their id, removed. */
interface KeptRecords {
  list(): Promise<object[]>;
  get(id: string): Promise<object>;
  save(id: string, value: unknown, options: { expected?: string | undefined }): Promise<object>;
  remove(id: string): Promise<void>;
}

/** The four routes of such records at `/api/<tag>`; one comes with an `ETag`, and a save may send it as `If-Match`. */
export function recordRoutes(
  app: App,
  records: KeptRecords,
  about: {
    readonly tag: string;
    readonly schema: z.ZodType;
    /** 'All blanks' */
    readonly all: string;
    /** 'blank' */
    readonly one: string;
    /** What goes with it, as ' and its platen checks'. */
    readonly removedToo?: string;
  },
): void {
  const { tag, schema, all, one, removedToo = '' } = about;
  const tags = [tag];
  app.get(
    `/api/${tag}`,
    { schema: { summary: all, tags, response: { 200: z.array(schema), ...failures } } },
    () => records.list(),
  );
  app.get(
    `/api/${tag}/:id`,
    { schema: { summary: `One ${one}`, tags, params: idParams, response: { 200: schema, ...failures } } },
    async (request, reply) => {
      const record = await records.get(request.params.id);
      reply.header('etag', entityTag(record));
      return record;
    },
  );
  app.put(
    `/api/${tag}/:id`,
    {
      schema: {
        summary: `Add or replace a ${one}`,
        description: 'With If-Match, only when the record still has that entity tag.',
        tags,
        params: idParams,
        headers: ifMatch,
        body: schema,
        response: { 200: schema, ...failures },
      },
    },
    async (request, reply) => {
      const record = await records.save(request.params.id, request.body, {
        expected: expected(request.headers['if-match']),
      });
      reply.header('etag', entityTag(record));
      return record;
    },
  );
  app.delete(
    `/api/${tag}/:id`,
    {
      schema: {
        summary: `Remove a ${one}${removedToo}`,
        tags,
        params: idParams,
        response: { 204: removed, ...failures },
      },
    },
    async (request, reply) => {
      await records.remove(request.params.id);
      return reply.code(204).send(null);
    },
  );
}
