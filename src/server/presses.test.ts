import { describe, expect, test } from 'vitest';
import { type Press, platenCheckSchema, pressSchema } from '#contract';
import { json, testServer } from '../../tests/shop/http.js';

const { call, expectProblem } = testServer();

const mine: Press = pressSchema.parse({
  id: 'mine',
  name: 'Our press',
  kind: 'flat',
  platenWidthMm: 400,
  platenDepthMm: 300,
});
const put = (value: unknown, headers: Record<string, string> = {}) => {
  const sent = json(value);
  return call('PUT', '/api/presses/mine', { ...sent, headers: { ...sent.headers, ...headers } });
};
/** A grid of 3 × 3, every reading moved by `off`. */
const readings = (off: number, more: object = {}) => ({
  setC: 200,
  method: 'probe',
  columns: 3,
  rows: 3,
  celsius: [0, 0.4, -0.3, 0.2, 0.1, -0.2, -0.4, 0.3, 0].map((noise) => 200 + off + noise),
  ...more,
});

describe('presses', () => {
  test('stock is there; a press is added, changed, removed', async () => {
    const stock = (await call('GET', '/api/presses')).json() as Press[];
    expect(new Set(stock.map(({ kind }) => kind))).toEqual(new Set(['flat', 'mug', 'oven']));
    expect((await put(mine)).json()).toEqual(mine);
    const got = await call('GET', '/api/presses/mine');
    expect(got.json()).toEqual(mine);
    const tag = String(got.headers.etag);
    expect((await put({ ...mine, watts: 1500 }, { 'if-match': tag })).statusCode).toBe(200);
    expectProblem(await put({ ...mine, watts: 900 }, { 'if-match': tag }), 409, 'record.changed');
    expect((await call('GET', '/api/presses/mine')).json().watts).toBe(1500);
    expect((await call('DELETE', '/api/presses/mine')).statusCode).toBe(204);
    expectProblem(await call('GET', '/api/presses/mine'), 404, 'record.missing');
    expectProblem(await call('DELETE', '/api/presses/mine'), 404, 'record.missing');
    expectProblem(await call('GET', '/api/presses/mine/checks'), 404, 'record.missing');
  });

  test.each([
    ['no size', { platenWidthMm: 0 }, 'request.invalid'],
    [
      'a rod thicker than its bore',
      { drive: { kind: 'air-cylinder', boreMm: 40, rodMm: 60 } },
      'press.invalid',
    ],
    [
      'weighings that fall',
      {
        drive: {
          kind: 'weighed',
          points: [
            { setting: 1, newtons: 500 },
            { setting: 2, newtons: 300 },
          ],
        },
      },
      'press.invalid',
    ],
    ['the id of another', { id: 'another' }, 'request.invalid'],
  ])('%s is refused, and nothing is kept', async (_what, change, code) => {
    expectProblem(await put({ ...mine, ...change }), 422, code);
    expectProblem(await call('GET', '/api/presses/mine'), 404, 'record.missing');
  });
});

describe('platen checks', () => {
  const post = (value: unknown) => call('POST', '/api/presses/mine/checks', json(value));

  test('the newest says what is to be set; they go with their press', async () => {
    await put(mine);
    const first = await post(readings(-5));
    expect([first.statusCode, first.body]).toEqual([201, expect.any(String)]);
    const check = platenCheckSchema.parse(first.json());
    // The instrument's own doubt is far larger than the chance of nine readings: the offset is their mean.
    expect(check.offsetK.value).toBeCloseTo(-5, 0);
    expect(check.offsetK.low).toBeLessThan(-5);
    expect(check.offsetK.high).toBeGreaterThan(-5);

    const order = {
      kind: 'ladder',
      setupId: 'desktop-a4',
      blankId: 'aluminium-sheet-200x300',
      pressId: 'mine',
    };
    const proposal = async () => (await call('POST', '/api/test-sheets/proposal', json(order))).json();
    const { ladder, remarks } = await proposal();
    const [coupon] = ladder.coupons;
    expect(ladder).toMatchObject({ pressId: 'mine', pressName: 'Our press', offsetK: check.offsetK.value });
    expect(coupon.setC).toBe(Math.round(coupon.step.platenC + 5));
    expect(remarks.join(' ')).toContain('5 °C cooler than it says');

    const second = platenCheckSchema.parse((await post(readings(8))).json());
    const kept = (await call('GET', '/api/presses/mine/checks')).json() as { id: string }[];
    expect(kept.map(({ id }) => id).sort()).toEqual([check.id, second.id].sort());
    expect((await call('DELETE', `/api/presses/mine/checks/${second.id}`)).statusCode).toBe(204);
    expectProblem(await call('DELETE', `/api/presses/mine/checks/${second.id}`), 404, 'record.missing');
    expectProblem(
      await call('DELETE', `/api/presses/flat-380-380/checks/${check.id}`),
      404,
      'record.missing',
    );
    expect((await proposal()).ladder.offsetK).toBe(check.offsetK.value);

    expect((await call('DELETE', '/api/presses/mine')).statusCode).toBe(204);
    expectProblem(await call('POST', '/api/test-sheets/proposal', json(order)), 404, 'record.missing');
    await put(mine);
    expect((await call('GET', '/api/presses/mine/checks')).json()).toEqual([]);
  });

  test.each([
    ['fewer temperatures than places', { columns: 4 }, 'press.invalid', '12 places, not 9'],
    ['none taken', { celsius: Array(9).fill(null) }, 'press.invalid', 'No temperature'],
    ['a platen hotter than any', { celsius: Array(9).fill(900) }, 'request.invalid', '300 or less'],
    ['an unknown way of measuring', { method: 'guess' }, 'request.invalid', ''],
  ])('%s: refused', async (_what, more, code, words) => {
    await put(mine);
    const details = expectProblem(await post(readings(0, more)), 422, code);
    expect(details.detail).toContain(words);
    expect((await call('GET', '/api/presses/mine/checks')).json()).toEqual([]);
  });
});
