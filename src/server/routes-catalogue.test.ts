import { describe, expect, test } from 'vitest';
import { builtinProfile, encodeProfile } from '#craft/icc';
import { inventedPrinterProfile } from '#shop/demo';
import { form } from '../../tests/shop/fixture.js';
import { json, testServer } from '../../tests/shop/http.js';

const { call, expectProblem } = testServer();

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
    expectProblem(await post('x.icc', new Uint8Array(0)), 422, 'request.invalid');
    expectProblem(
      await post('screen.icc', encodeProfile(builtinProfile('srgb'))),
      422,
      'profile.unsupported',
    );
    expectProblem(await call('POST', '/api/paths', form(null, { name: 'x' })), 422, 'request.invalid');
  });
});
