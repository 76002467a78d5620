import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Shop } from '#shop';
import { newFolder, openTestShop } from '../../../tests/shop/fixture.js';

const { folder, remove } = newFolder();
let shop: Shop;
beforeAll(async () => {
  ({ shop } = await openTestShop({ folder }));
});
afterAll(async () => {
  await shop.close();
  remove();
});

test('a blank that no face can be made of is refused when it is kept, not first when a sheet is wanted', async () => {
  const tile = await shop.blanks.get('tile-ceramic-108');
  for (const widthMm of [1e-9, 0.01]) {
    const shape = { ...tile.shape, widthMm, cornerRadiusMm: 0 };
    await expect(shop.blanks.save('thin', { ...tile, id: 'thin', shape })).rejects.toMatchObject({
      code: 'blank.invalid',
    });
  }
  await expect(shop.blanks.get('thin')).rejects.toMatchObject({ code: 'record.missing' });
});

test('margins that leave nothing of the paper are refused when the setup is kept', async () => {
  const setup = await shop.setups.get('desktop-a4');
  const paper = { ...setup.paper, widthMm: 80, heightMm: 200 };
  await expect(
    shop.setups.save('narrow', { ...setup, id: 'narrow', paper: { ...paper, marginMm: 40 } }),
  ).rejects.toMatchObject({ code: 'setup.invalid', where: 'paper.marginMm' });
  const kept = await shop.setups.save('narrow', {
    ...setup,
    id: 'narrow',
    paper: { ...paper, marginMm: 39 },
  });
  expect(kept.paper.marginMm).toBe(39);
});
