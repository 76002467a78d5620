import { connect } from 'node:net';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Shop } from '#shop';
import { cornersPng, newFolder, openTestShop } from '../../tests/shop/fixture.js';
import { startServer } from './start-server.js';

const { folder, remove } = newFolder();
let shop: Shop;
beforeAll(async () => {
  ({ shop } = await openTestShop({ folder }));
});
afterAll(async () => {
  await shop.close();
  remove();
});

test('a port that is none, or that another has, is said', async () => {
  for (const port of [99_999, -1, 80.5]) {
    await expect(startServer({ shop, port })).rejects.toMatchObject({
      code: 'request.invalid',
      message: `${port} is not a port that this program may use.`,
    });
  }
  const first = await startServer({ shop, port: 0 });
  try {
    const port = Number(new URL(first.url).port);
    await expect(startServer({ shop, port })).rejects.toMatchObject({ code: 'shop.in-use' });
  } finally {
    await first.close();
  }
});

test('what is no HTTP is answered in the same form, and the server goes on', async () => {
  const server = await startServer({ shop, port: 0 });
  const port = Number(new URL(server.url).port);
  const answer = (text: string) =>
    new Promise<string>((resolve, reject) => {
      let all = '';
      const socket = connect(port, '127.0.0.1', () => socket.write(text));
      socket.on('data', (chunk) => {
        all += String(chunk);
      });
      socket.on('close', () => resolve(all));
      socket.on('error', reject);
    });
  try {
    for (const [text, status] of [
      ['no words for this\r\n\r\n', 400],
      [`GET /${'x'.repeat(60_000)} HTTP/1.1\r\nHost: localhost\r\n\r\n`, 431],
    ] as const) {
      const [head, body] = (await answer(text)).split('\r\n\r\n');
      expect(head).toMatch(new RegExp(`^HTTP/1.1 ${status} [^]*application/problem\\+json`));
      expect(JSON.parse(body!)).toMatchObject({
        code: 'request.invalid',
        status,
        detail: expect.any(String),
      });
    }
    expect((await fetch(`${server.url}/api/shop`)).status).toBe(200);
  } finally {
    await server.close();
  }
});

test('a file’s name comes as the person’s browser meant it', async () => {
  const server = await startServer({ shop, port: 0 });
  try {
    const form = new FormData();
    form.append('file', new Blob([new Uint8Array(await cornersPng())]), 'the "best"\none.png');
    const answer = await fetch(`${server.url}/api/artwork`, { method: 'POST', body: form });
    expect((await answer.json()).fileName).toBe('the "best" one.png');
  } finally {
    await server.close();
  }
});
