import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { json, testServer } from '../../tests/shop/http.js';

const { folder, call, expectProblem } = testServer();

describe('shop', () => {
  test('facts and preferences', async () => {
    expect((await call('GET', '/api/shop')).json()).toEqual({
      version: expect.stringMatching(/^\d+\.\d+\.\d+/),
      folder,
      demo: false,
      calibrated: false,
      preferences: { temperatureUnit: 'C', lengthUnit: 'mm', theme: 'auto' },
    });
    const kept = { temperatureUnit: 'F', lengthUnit: 'in', theme: 'dark' };
    expect((await call('PUT', '/api/shop/preferences', json(kept))).json()).toEqual(kept);
    expect((await call('GET', '/api/shop')).json().preferences).toEqual(kept);
    const details = expectProblem(
      await call('PUT', '/api/shop/preferences', json({ theme: 'neon' })),
      422,
      'request.invalid',
    );
    expect(details).toMatchObject({
      where: 'theme',
      detail: expect.stringContaining('must be one of auto, light, dark'),
    });
  });

  test('bodies that are no JSON, of another type, or endless', async () => {
    const headers = { 'content-type': 'application/json' };
    expectProblem(
      await call('PUT', '/api/shop/preferences', { payload: '{"theme":', headers }),
      400,
      'request.invalid',
    );
    expectProblem(
      await call('PUT', '/api/shop/preferences', {
        payload: '<x/>',
        headers: { 'content-type': 'text/xml' },
      }),
      415,
      'request.invalid',
    );
    expectProblem(
      await call('PUT', '/api/shop/preferences', json({ theme: 'x'.repeat(2_000_000) })),
      413,
      'request.invalid',
    );
    expectProblem(await call('PUT', '/api/shop/preferences', json(null)), 422, 'request.invalid');
  });
});

describe('documentation', () => {
  test('OpenAPI has every call that docs/architecture.md lists, and no others', async () => {
    const answer = await call('GET', '/api/docs/json');
    const documented = Object.entries(answer.json().paths as Record<string, object>).flatMap(
      ([address, methods]) =>
        Object.keys(methods).map(
          (method) => `${method.toUpperCase()} ${address.replace(/\{(\w+)\}/g, ':$1')}`,
        ),
    );
    const text = readFileSync(path.resolve(import.meta.dirname, '../../docs/architecture.md'), 'utf8');
    const listed = [...text.matchAll(/`([A-Z/]+) (\/api\/[^`\s]*)`/g)].flatMap(([, methods, address]) =>
      methods!.split('/').map((method) => `${method} ${address!.split('?')[0]}`),
    );
    expect(listed.length).toBeGreaterThan(20);
    expect([...new Set(documented)].sort()).toEqual([...new Set(listed)].sort());
    expect((await call('GET', '/api/docs')).headers['content-type']).toMatch(/text\/html/);
  });
});
