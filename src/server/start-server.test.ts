import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Shop } from '#shop';
import { newFolder, openTestShop } from '../../tests/shop/fixture.js';
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
