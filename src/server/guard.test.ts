import { describe, expect, test } from 'vitest';
import { json, testServer } from '../../tests/shop/http.js';

const { faults, call, expectProblem, theShop } = testServer();

describe('keeping others out', () => {
  test.each(['evil.example', '127.0.0.1.evil.example', '192.168.1.20:4710', 'localhost@evil.example'])(
    'a call under the name “%s” is refused (DNS rebinding)',
    async (host) => {
      expectProblem(await call('GET', '/api/shop', { headers: { host } }), 403, 'request.invalid');
      expectProblem(await call('GET', '/', { headers: { host } }), 403, 'request.invalid');
    },
  );

  test.each(['localhost:4710', '127.0.0.1:4710', '[::1]:4710', 'LOCALHOST'])(
    'a call under the name “%s” is answered',
    async (host) => {
      expect((await call('GET', '/api/shop', { headers: { host } })).statusCode).toBe(200);
    },
  );

  test('a changing call from another page is refused; from our page or from no page it is not', async () => {
    const put = (headers: Record<string, string>) => {
      const sent = json({ theme: 'light' });
      return call('PUT', '/api/shop/preferences', {
        payload: sent.payload,
        headers: { ...sent.headers, ...headers },
      });
    };
    expectProblem(await put({ origin: 'https://evil.example' }), 403, 'request.invalid');
    expectProblem(await put({ origin: 'http://127.0.0.1:9999' }), 403, 'request.invalid');
    expectProblem(await put({ origin: 'null' }), 403, 'request.invalid');
    expectProblem(await put({ 'sec-fetch-site': 'cross-site' }), 403, 'request.invalid');
    expect((await put({ origin: 'http://127.0.0.1:4710', 'sec-fetch-site': 'same-origin' })).statusCode).toBe(
      200,
    );
    expect((await put({})).statusCode).toBe(200);
  });

  test.each([
    '/api/blanks/..%2f..%2f..%2fetc%2fpasswd',
    '/api/artwork/..%2f..%2fshop.sqlite',
    '/api/artwork/%2e%2e%2fshop.sqlite/picture',
    '/api/sheets/x/files/..%2f..%2fshop.sqlite',
    '/api/sheets/x/files/%00',
    '/api/jobs/..%2fx/events',
    '/api/../shop.sqlite',
    '/assets/..%2f..%2f..%2fpackage.json',
    '/..%2f..%2fpackage.json',
    '/%c0%ae%c0%ae/package.json',
    `/api/blanks/${'x'.repeat(250)}`,
  ])('%s reaches no file', async (url) => {
    const answer = await call('GET', url);
    expect(answer.headers['content-type']).toMatch(/^(application\/problem\+json|text\/html)/);
    expect(answer.body).not.toMatch(/SQLite format|"dependencies"|root:/);
  });

  test('every answer bears the headers that keep a page to itself', async () => {
    for (const url of ['/api/shop', '/api/nothing', '/']) {
      const { headers } = await call('GET', url);
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['content-security-policy']).toContain("frame-ancestors 'none'");
      expect(headers['content-security-policy']).not.toMatch(/script-src[^;]*unsafe-inline/);
      expect(headers['access-control-allow-origin']).toBeUndefined();
    }
  });

  test('a fault of the program is told to the program’s keeper, not to the caller', async () => {
    const shop = theShop();
    const facts = shop.facts;
    shop.facts = () => Promise.reject(new Error('the secret is in /home/someone'));
    const answer = await call('GET', '/api/shop');
    shop.facts = facts;
    expectProblem(answer, 500, 'internal.fault');
    expect(answer.body).not.toContain('secret');
    expect(String(faults.at(-1))).toContain('the secret');
  });
});
