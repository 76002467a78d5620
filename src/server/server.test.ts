import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { builtinProfile, encodeProfile } from '#craft/icc';
import type { Shop } from '#shop';
import { inventedPrinterProfile } from '#shop/demo';
import { cornersPng, form, newFolder, openTestShop, scratchOf } from '../../tests/shop/fixture.js';
import { buildServer } from './index.js';

const { folder, remove } = newFolder();
let shop: Shop;
let app: Awaited<ReturnType<typeof buildServer>>;
const faults: unknown[] = [];
beforeAll(async () => {
  ({ shop } = await openTestShop({ folder, byteLimit: 3_000_000, pixelLimit: 20_000_000 }));
  app = await buildServer({ shop, onFault: (error) => faults.push(error) });
});
afterAll(async () => {
  await app.close();
  await shop.close();
  remove();
});

interface Sent {
  readonly payload?: string | Buffer;
  readonly headers?: Record<string, string>;
}
async function call(method: 'GET' | 'PUT' | 'POST' | 'DELETE', url: string, sent: Sent = {}) {
  const headers = { host: '127.0.0.1:4710', ...sent.headers };
  return app.inject({
    method,
    url,
    headers,
    ...(sent.payload === undefined ? {} : { payload: sent.payload }),
  });
}
const json = (value: unknown) => ({
  payload: JSON.stringify(value),
  headers: { 'content-type': 'application/json' },
});

/** Every failure is problem details (RFC 9457) with our code, a sentence, and what to do; never the program's insides. */
function expectProblem(
  answer: { statusCode: number; headers: Record<string, unknown>; body: string },
  status: number,
  code: string,
) {
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
}

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
      'image.too-large',
    );
    expectProblem(await call('PUT', '/api/shop/preferences', json(null)), 422, 'request.invalid');
  });
});

describe('blanks and setups', () => {
  test('stock is there; a blank is added, changed, removed', async () => {
    const all = (await call('GET', '/api/blanks')).json() as { id: string; name: string }[];
    expect(all.length).toBeGreaterThan(10);
    const tile = (await call('GET', '/api/blanks/tile-ceramic-108')).json();
    const mine = { ...tile, id: 'my-tile', name: 'Our tile' };
    expect((await call('PUT', '/api/blanks/my-tile', json(mine))).json()).toEqual(mine);
    expect((await call('GET', '/api/blanks/my-tile')).json()).toEqual(mine);
    expect((await call('DELETE', '/api/blanks/my-tile')).statusCode).toBe(204);
    expectProblem(await call('GET', '/api/blanks/my-tile'), 404, 'record.missing');
    expectProblem(await call('DELETE', '/api/blanks/my-tile'), 404, 'record.missing');
  });

  test('a change made on an old copy is refused when its entity tag is sent (RFC 9110, 13.1.1)', async () => {
    const first = await call('GET', '/api/blanks/tile-ceramic-152');
    const tag = String(first.headers.etag);
    const tile: object = first.json();
    const changed = { ...tile, note: 'changed by one' };
    const put = (value: unknown) => {
      const { payload, headers } = json(value);
      return call('PUT', '/api/blanks/tile-ceramic-152', {
        payload,
        headers: { ...headers, 'if-match': tag },
      });
    };
    expect((await put(changed)).statusCode).toBe(200);
    expectProblem(await put({ ...tile, note: 'changed by another' }), 409, 'record.changed');
    expect((await call('GET', '/api/blanks/tile-ceramic-152')).json().note).toBe('changed by one');
  });

  test.each([
    ['recipe.platenC', 'must be 230 or less', { recipe: { platenC: 2040 } }],
    ['recipe.platenC', 'must be 120 or more', { recipe: { platenC: -5 } }],
    ['recipe.dwellSeconds', 'must be a whole number', { recipe: { dwellSeconds: 30.5 } }],
    ['name', 'must not be empty', { name: '' }],
    ['name', 'must be text', { name: 7 }],
    [
      'shape.widthMm',
      'must be 6000 or less',
      { shape: { kind: 'rectangle', widthMm: 1e9, heightMm: 5, cornerRadiusMm: 0 } },
    ],
    [
      'shape.widthMm',
      'must be more than 0',
      { shape: { kind: 'rectangle', widthMm: 0, heightMm: 5, cornerRadiusMm: 0 } },
    ],
    ['shape.kind', '', { shape: { kind: 'torus' } }],
    ['coating', 'is missing', { coating: undefined }],
    ['id', '', { id: '../../etc' }],
  ])('a blank with a wrong %s is refused in words: %s', async (field, words, change) => {
    const tile = (await call('GET', '/api/blanks/tile-ceramic-108')).json();
    const wrong = {
      ...tile,
      ...change,
      recipe: { ...tile.recipe, ...(change as { recipe?: object }).recipe },
    };
    const details = expectProblem(
      await call('PUT', '/api/blanks/tile-ceramic-108', json(wrong)),
      422,
      'request.invalid',
    );
    expect(details.where).toBe(field);
    expect(details.detail).toContain(words);
    expect((await call('GET', '/api/blanks/tile-ceramic-108')).json()).toEqual(tile);
  });

  test('address and record must name the same; a setup cannot name a colour path that is not there', async () => {
    const tile = (await call('GET', '/api/blanks/tile-ceramic-108')).json();
    expectProblem(await call('PUT', '/api/blanks/another', json(tile)), 422, 'request.invalid');
    const setup = (await call('GET', '/api/setups/desktop-a4')).json();
    const details = expectProblem(
      await call('PUT', '/api/setups/desktop-a4', json({ ...setup, colourPathId: 'no-such' })),
      422,
      'setup.invalid',
    );
    expect(details.where).toBe('colourPathId');
  });
});

describe('colour paths', () => {
  const post = (name: string, bytes: Uint8Array, fields: Record<string, string> = {}) =>
    call('POST', '/api/paths', form({ name, bytes }, fields));

  test('a printer profile is imported, named, used, kept from going while used', async () => {
    const profile = inventedPrinterProfile();
    const answer = await post('printer.icc', profile, { name: 'Our printer' });
    expect(answer.statusCode).toBe(201);
    const path = answer.json();
    expect(path).toMatchObject({
      id: 'our-printer',
      name: 'Our printer',
      description: 'Demo: invented printer',
      iccVersion: '2.4.0',
      origin: 'imported',
    });
    expect((await post('again.icc', profile, { name: 'Our printer' })).json()).toEqual(path);
    expect((await post('p.icc', profile)).json().name).toBe('Demo: invented printer');
    expect((await call('GET', '/api/paths')).json()).toHaveLength(2);
    const setup = (await call('GET', '/api/setups/desktop-a4')).json();
    await call('PUT', '/api/setups/desktop-a4', json({ ...setup, colourPathId: path.id }));
    expect((await call('GET', '/api/shop')).json().calibrated).toBe(true);
    const details = expectProblem(await call('DELETE', `/api/paths/${path.id}`), 409, 'record.in-use');
    expect(details.detail).toContain(setup.name);
    await call('PUT', '/api/setups/desktop-a4', json(setup));
    expect((await call('DELETE', `/api/paths/${path.id}`)).statusCode).toBe(204);
    expectProblem(await call('DELETE', `/api/paths/${path.id}`), 404, 'record.missing');
  });

  test('what is no printer profile is refused: garbage, cut short, a display, nothing', async () => {
    const profile = inventedPrinterProfile();
    expectProblem(await post('x.icc', Buffer.from('not a profile at all')), 422, 'profile.broken');
    expectProblem(await post('x.icc', profile.subarray(0, 5000)), 422, 'profile.broken');
    expectProblem(await post('x.icc', new Uint8Array(0)), 422, 'profile.broken');
    expectProblem(
      await post('screen.icc', encodeProfile(builtinProfile('srgb'))),
      422,
      'profile.unsupported',
    );
    expectProblem(await call('POST', '/api/paths', form(null, { name: 'x' })), 422, 'request.invalid');
  });
});

describe('artwork', () => {
  const post = (name: string, bytes: Uint8Array) => call('POST', '/api/artwork', form({ name, bytes }));

  test('a picture comes in, once, and is shown', async () => {
    const png = await cornersPng();
    const answer = await post('C:\\pictures\\..\\corners.png', png);
    expect(answer.statusCode).toBe(201);
    expect(answer.json()).toMatchObject({
      fileName: 'corners.png',
      format: 'png',
      widthPixels: 60,
      heightPixels: 40,
      colourModel: 'rgb',
      hasAlpha: false,
      demo: false,
    });
    expect((await post('other-name.png', png)).json().id).toBe(answer.json().id);
    const { id } = answer.json();
    expect((await call('GET', '/api/artwork')).json().map((one: { id: string }) => one.id)).toEqual([id]);
    const picture = await call('GET', `/api/artwork/${id}/picture?max=32`);
    expect(picture.headers['content-type']).toMatch(/^image\//);
    expect(picture.headers['content-security-policy']).toContain("default-src 'none'");
    expectProblem(await call('GET', `/api/artwork/${id}/picture?max=1000000`), 422, 'request.invalid');
    expectProblem(await call('GET', `/api/artwork/${'0'.repeat(64)}/picture`), 404, 'record.missing');
  });

  test('what is no picture, half a picture, or too large is refused in words and leaves nothing', async () => {
    const before = (await call('GET', '/api/artwork')).json().length;
    expectProblem(
      await post('letter.png', Buffer.from('Dear rowing club, this is a letter.')),
      422,
      'image.wrong-type',
    );
    const noise = await cornersPng(600, 400);
    expectProblem(
      await post('half.png', noise.subarray(0, Math.floor(noise.length / 2))),
      422,
      'image.unreadable',
    );
    expectProblem(await post('empty.png', new Uint8Array(0)), 422, 'image.unreadable');
    expectProblem(await post('huge.tif', new Uint8Array(3_000_001)), 413, 'image.too-large');
    // 6000 × 6000 black pixels are 36 million in a few kilobytes: a decompression bomb against the set 20 million.
    const bomb = await import('sharp').then(({ default: sharp }) =>
      sharp({ create: { width: 6000, height: 6000, channels: 3, background: '#000' } })
        .png()
        .toBuffer(),
    );
    expectProblem(await post('bomb.png', bomb), 413, 'image.too-large');
    expectProblem(await call('POST', '/api/artwork', form(null)), 422, 'request.invalid');
    expectProblem(
      await call('POST', '/api/artwork', form({ name: 'x.png', bytes: noise, field: 'other' })),
      422,
      'request.invalid',
    );
    expectProblem(await call('POST', '/api/artwork', json({ file: 'x' })), 422, 'request.invalid');
    const cut = form({ name: 'x.png', bytes: noise });
    expectProblem(
      await call('POST', '/api/artwork', { ...cut, payload: cut.payload.subarray(0, 300) }),
      422,
      'request.invalid',
    );
    expect((await call('GET', '/api/artwork')).json().length).toBe(before);
    expect(scratchOf(folder)).toEqual([]);
  });

  test('a text file sent as a scan, and a picture without marks, are answered in words', async () => {
    expectProblem(
      await call(
        'POST',
        '/api/read-back',
        form({ name: 'scan.png', bytes: Buffer.from('no') }, { subject: 'paper' }),
      ),
      422,
      'image.wrong-type',
    );
    const plain = await cornersPng(400, 300);
    expectProblem(
      await call(
        'POST',
        '/api/read-back',
        form({ name: 'scan.png', bytes: plain }, { subject: 'piece' }, true),
      ),
      422,
      'scan.no-marks',
    );
    expectProblem(
      await call('POST', '/api/read-back', form({ name: 'scan.png', bytes: plain }, { subject: 'mug' })),
      422,
      'request.invalid',
    );
    expect(scratchOf(folder)).toEqual([]);
  });
});

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
    const facts = shop.facts;
    shop.facts = () => Promise.reject(new Error('the secret is in /home/someone'));
    const answer = await call('GET', '/api/shop');
    shop.facts = facts;
    expectProblem(answer, 500, 'internal.fault');
    expect(answer.body).not.toContain('secret');
    expect(String(faults.at(-1))).toContain('the secret');
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
