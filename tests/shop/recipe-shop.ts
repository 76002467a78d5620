import type { Blank, Ladder } from '#contract';
import { Blanks, offerStock } from '#shop/catalogue';
import { HeatDesk } from '#shop/heat-desk';
import { Presses } from '#shop/presses';
import { Recipes } from '#shop/recipes';
import { missing, openDatabase, Records } from '#shop/store';

/** A shop of recipes for tests: stock blanks, a clock of its own, ladders put straight into the records. */
export async function recipeShop(folder: string) {
  const database = await openDatabase(folder);
  const records = new Records(database.db);
  let day = 1;
  const now = () => new Date(Date.UTC(2026, 2, day));
  await offerStock(records, now);
  const presses = new Presses(records, now);
  const heatDesk = new HeatDesk({ records, presses });
  const ladders = {
    get: async (id: string): Promise<Ladder> => {
      const ladder = await records.ladders.get(id);
      if (ladder === undefined) throw missing('ladder', id);
      return ladder;
    },
  };
  return {
    database,
    records,
    presses,
    heatDesk,
    blanks: new Blanks(records, now),
    recipes: new Recipes({ records, presses, ladders, heatDesk, now }),
    tomorrow: () => {
      day += 1;
    },
  };
}

/** A ladder whose window has this middle; all other facts are of no matter here. */
export function ladderWith(
  sheetId: string,
  blank: Blank,
  found: { platenC: number; dwellSeconds: number; share?: number; isSure?: boolean } | null,
): Ladder {
  const around = (value: number, share: number) => ({
    value,
    low: value * (1 - share),
    high: value * (1 + share),
  });
  const step = { platenC: blank.recipe.platenC, dwellSeconds: blank.recipe.dwellSeconds };
  const coupon = { number: 1, step, setC: step.platenC, alike: 1 };
  return {
    sheetId,
    setupName: 'A setup',
    blankId: blank.id,
    blankName: blank.name,
    plan: {
      kind: 'ladder',
      words: '',
      factors: ['time'],
      start: step,
      limits: { platenC: [180, 220], dwellSeconds: [10, 900] },
      temperatureChanges: 0,
      offsetK: null,
      pressId: null,
      pressName: null,
      couponMm: 30,
      coupons: [coupon],
    },
    coupons: [1, 2, 3, 4, 5, 6].map((number) => ({
      ...coupon,
      number,
      pressed: null,
      values: null,
      byEye: { black: 'neutral' as const },
      pictureId: null,
      seenHex: [],
      leftOut: number === 6,
      remarks: [],
    })),
    pictures: [],
    standing: '',
    window:
      found === null
        ? null
        : {
            platenC: found.platenC,
            setC: found.platenC,
            pressureBar: null,
            fromSeconds: around(found.dwellSeconds * 0.8, 0.1),
            toSeconds: around(found.dwellSeconds * 1.25, 0.1),
            opens: 'density',
            closes: 'brown',
            windowProbability: 0.99,
            recipe: {
              platenC: found.platenC,
              setC: found.platenC,
              dwellSeconds: found.dwellSeconds,
              pressureBar: null,
              middleSeconds: around(found.dwellSeconds, found.share ?? 0.05),
              probabilityWithin: 0.97,
              tolerance: { shorterSeconds: 8.9, longerSeconds: 14.2, coolerK: 3, hotterK: 4 },
            },
            activation: { kJPerMol: { value: 80, low: 20, high: 140 }, isFitted: false, basis: '' },
            isSure: found.isSure ?? true,
            next: [],
            remarks: [],
            words: '',
          },
    missing: found === null ? 'Three coupons at least are wanted.' : null,
    updatedAt: '2026-03-03T10:00:00.000Z',
    demo: false,
  };
}
