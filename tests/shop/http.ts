import { afterAll, beforeAll, expect } from 'vitest';
import { buildServer } from '#server';
import type { Shop } from '#shop';
import { newFolder, openTestShop } from './fixture.js';

interface Sent {
  readonly payload?: string | Buffer;
  readonly headers?: Record<string, string>;
}

interface Answer {
  readonly statusCode: number;
  readonly headers: Record<string, unknown>;
  readonly body: string;
}

/** A server over an empty shop for the tests of one file, called without a socket. Limits are small, so that they are met. */
export function testServer() {
  const { folder, remove } = newFolder();
  const faults: unknown[] = [];
  let shop: Shop;
  let app: Awaited<ReturnType<typeof buildServer>>;
  beforeAll(async () => {
    ({ shop } = await openTestShop({ folder, byteLimit: 3_000_000, pixelLimit: 20_000_000 }));
    app = await buildServer({ shop, onFault: (error) => faults.push(error) });
  });
  afterAll(async () => {
    await app.close();
    await shop.close();
    remove();
  });
  return {
    folder,
    faults,
    theShop: () => shop,
    call(method: 'GET' | 'PUT' | 'POST' | 'DELETE', url: string, sent: Sent = {}) {
      const headers = { host: '127.0.0.1:4710', ...sent.headers };
      return app.inject({
        method,
        url,
        headers,
        ...(sent.payload === undefined ? {} : { payload: sent.payload }),
      });
    },
    /** Every failure is problem details (RFC 9457) with our code, a sentence, and what to do; never the program's insides. */
    expectProblem(answer: Answer, status: number, code: string) {
      expect({ status: answer.statusCode, body: answer.body, faults: faults.map(String) }).toMatchObject({
        status,
      });
      expect(answer.headers['content-type']).toMatch(/^application\/problem\+json/);
      const details = JSON.parse(answer.body);
      expect(details).toMatchObject({ type: `/problems/${code}`, code, status, title: expect.any(String) });
      expect(details.detail).toMatch(/[.!?]$/);
      expect(details.remedy.length).toBeGreaterThan(8);
      expect(answer.body).not.toMatch(/node_modules|\.js:\d|\/tmp\/| {4}at /);
      return details as { detail: string; remedy: string; where: string | null };
    },
  };
}

export const json = (value: unknown) => ({
  payload: JSON.stringify(value),
  headers: { 'content-type': 'application/json' },
});
