// Started by kill.test.ts: writes records as fast as it can and says so only after each was acknowledged.
import { openDatabase, Records } from '../../../dist/shop/store/index.js';

const { db } = await openDatabase(process.argv[2]);
const records = new Records(db);
for (let number = Number(process.argv[3]); ; number += 1) {
  await records.together(async (inside) => {
    await inside.settings.put(`first-${number}`, number);
    await inside.settings.put(`second-${number}`, number);
  });
  process.stdout.write(`${number}\n`);
}
