import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Shop } from '#shop';
import { newFolder, openTestShop } from '../../../tests/shop/fixture.js';

const { folder, remove } = newFolder();
let shop: Shop;
beforeAll(async () => {
  ({ shop } = await openTestShop({ folder }));
  const press = (id: string, kind: 'flat' | 'mug' | 'oven', widthMm: number, depthMm: number) =>
    shop.presses.save(id, { id, name: id, kind, platenWidthMm: widthMm, platenDepthMm: depthMm });
  await press('swing', 'flat', 380, 380);
  await press('wrap', 'mug', 250, 110);
  await press('oven', 'oven', 400, 300);
  await shop.presses.save('air', {
    id: 'air',
    name: 'Air press',
    kind: 'flat',
    platenWidthMm: 380,
    platenDepthMm: 380,
    drive: { kind: 'air-cylinder', boreMm: 50, lossShare: 0 },
  });
});
afterAll(async () => {
  await shop.close();
  remove();
});

const ask = (question: Record<string, unknown>) =>
  shop.heatDesk.look({ blankId: 'slate-coaster-round-100', ...question });

describe('a look at a blank in a press', () => {
  test('says first when the dye’s place is hot, with its range, and defers to the maker', async () => {
    const look = await ask({});
    expect(look.sentences[0]).toMatch(
      /^The dye’s place reaches 194 °C after \d+ s \(\d+ to \d+\), of the 360 s/,
    );
    expect(look.sentences.at(-1)).toMatch(/maker’s instructions come first/);
    const { arrivesSeconds, dyePeakC, doseSeconds } = look.facts;
    for (const { value, low, high } of [arrivesSeconds!, dyePeakC, doseSeconds]) {
      expect(low).toBeLessThan(value);
      expect(high).toBeGreaterThan(value);
    }
    expect(look.courses.map(({ name }) => name)).toEqual(['dye', 'platen', 'middle', 'back']);
    for (const { celsius, low, high } of look.courses)
      for (const values of [celsius, low ?? celsius, high ?? celsius]) {
        expect(values).toHaveLength(look.seconds.length);
        expect(values.every(Number.isFinite)).toBe(true);
      }
    expect(look.layers.map(({ id }) => id)).toEqual(['cover', 'paper', 'coating', 'blank', 'pad']);
    expect(look.layers.slice(0, 2).map(({ name }) => name)).toEqual(['Cover sheet, paper', 'Printed paper']);
    expect(look.phases.map(({ name }) => name)).toEqual(['press', 'open', 'cool']);
    expect(look.cautions.map(({ id }) => id)).toContain('glass');
  });

  test('the energy of a piece is what warms it (m c ΔT by hand), and what the press needs beside', async () => {
    const look = await ask({ thicknessMm: 7, coolSeconds: 0 });
    // Slate, as the materials' table has it: 2750 kg/m³, 760 J/(kg K); 100 mm round, 7 mm thick.
    const kg = 2750 * 0.007 * (Math.PI / 4) * 0.1 ** 2;
    const end = look.phases.find(({ name }) => name === 'press')!.toSeconds;
    const at = look.seconds.findIndex((second) => second >= end);
    const means = ['dye', 'middle', 'back'].map(
      (name) => look.courses.find((c) => c.name === name)!.celsius[at]!,
    );
    // Simpson's rule over the thickness.
    const warmed = (means[0]! + 4 * means[1]! + means[2]!) / 6 - 21;
    const pieceWh = (kg * 760 * warmed) / 3600;
    // Back and sides of a platen of 38 × 38 cm lose 4 W/(m²K) to the room at 21 °C for the 365 s of press and opening.
    const lostWh = (4 * 0.38 ** 2 * (204 - 21) * 365) / 3600;
    // What is left warms paper and pad (400 kg/m³, 1300 J/(kg K), 8 mm: at most to 204 °C) and the bare face for 5 s.
    const padWh = (400 * 1300 * 0.008 * (Math.PI / 4) * 0.1 ** 2 * (204 - 21)) / 3600;
    expect(look.facts.pieceWh).toBeGreaterThan(pieceWh + lostWh);
    expect(look.facts.pieceWh).toBeLessThan(pieceWh + lostWh + padWh + 1.5);
  });

  test('less time is less dose, and the time that would make it good is told', async () => {
    const short = await ask({ dwellSeconds: 200 });
    const usual = await ask({});
    expect(short.facts.doseSeconds.value).toBeLessThan(usual.facts.doseSeconds.value);
    expect(short.sentences.join(' ')).toMatch(/360 s would give the same/);
  });

  test('a platen that was measured narrows what is not known', async () => {
    const question = { pressId: 'swing', blankId: 'phone-case-insert-70x145' };
    const before = await shop.heatDesk.look(question);
    await shop.presses.addCheck('swing', {
      setC: 200,
      method: 'probe',
      columns: 3,
      rows: 3,
      celsius: [196, 197, 196, 197, 198, 197, 196, 197, 196],
    });
    const after = await shop.heatDesk.look(question);
    const width = ({ facts: { dyePeakC } }: typeof after): number => dyePeakC.high - dyePeakC.low;
    expect(width(after)).toBeLessThan(width(before));
    expect(after.assumed.join(' ')).toMatch(/from the last check of “swing”/);
  });

  test('an oven is slower than a wrap on the same mug, and is never used for food again', async () => {
    const mug = { blankId: 'mug-straight-330ml' };
    const pressed = await shop.heatDesk.look({ ...mug, pressId: 'wrap', dwellSeconds: 300 });
    const baked = await shop.heatDesk.look({ ...mug, pressId: 'oven', dwellSeconds: 300 });
    expect(baked.facts.doseSeconds.value).toBeLessThan(pressed.facts.doseSeconds.value);
    expect(baked.phases[0]!.name).toBe('bake');
    expect(baked.cautions.map(({ id }) => id)).toContain('oven');
    expect(pressed.cautions.map(({ id }) => id)).not.toContain('oven');
  });

  test('cloth has a time of drying; a blank whose recipe says face down is heated through', async () => {
    const cloth = await shop.heatDesk.look({ blankId: 'shirt-50-polyester-front' });
    expect(cloth.facts.dryingSeconds!.value).toBeGreaterThan(0.5);
    // Common practice presses empty cloth for 5 to 10 s.
    expect(cloth.facts.dryingSeconds!.high).toBeLessThan(15);
    expect((await ask({})).facts.dryingSeconds).toBeNull();
    const tile = await shop.heatDesk.look({ blankId: 'tile-ceramic-108' });
    expect(tile.layers.map(({ id }) => id)).toEqual(['cover', 'blank', 'coating', 'paper', 'pad']);
    const turned = await shop.heatDesk.look({ blankId: 'tile-ceramic-108', faceDown: false });
    expect(turned.facts.doseSeconds.value).toBeGreaterThan(tile.facts.doseSeconds.value);
  });

  test.each([
    [{ blankId: 'none' }, 'record.missing'],
    [{ pressId: 'none' }, 'record.missing'],
    [{ pressId: 'wrap' }, 'press.invalid'],
    [{ blankId: 'mug-straight-330ml', pressId: 'swing' }, 'press.invalid'],
    [{ platenC: 231 }, 'press.unsafe'],
    [{ platenC: 5000 }, 'request.invalid'],
    [{ dwellSeconds: -1 }, 'request.invalid'],
    [{ dwellSeconds: Number.NaN }, 'request.invalid'],
    [{ thicknessMm: 0 }, 'request.invalid'],
  ])('%j is refused: %s', async (question, code) => {
    await expect(ask(question)).rejects.toMatchObject({ code, remedy: expect.stringMatching(/\w/) });
  });

  test('a mug whose wall is thicker than the mug is refused', async () => {
    const question = { blankId: 'mug-straight-330ml', thicknessMm: 45 };
    await expect(shop.heatDesk.look(question)).rejects.toMatchObject({ code: 'press.invalid' });
  });
});

describe('a stack of one’s own', () => {
  const insulated = { kind: 'insulated' };

  test('NAFEMS T3: 36.60 °C at 80 mm after 32 s (National Agency for Finite Element Methods and Standards)', async () => {
    const sine = Array.from({ length: 161 }, (_, i) => ({
      atSeconds: i / 4,
      value: 100 * Math.sin((Math.PI * i) / 160),
    }));
    const steel = { name: 'Steel', conductivityWPerMK: 35, densityKgPerM3: 7200, heatCapacityJPerKgK: 440.5 };
    const curve = await shop.heatDesk.run({
      roomC: 0,
      layers: [{ id: 'bar', material: steel, thicknessMm: 100 }],
      phases: [
        {
          name: 'warm',
          seconds: 32,
          above: { kind: 'fixed', celsius: 0 },
          below: { kind: 'fixed', celsius: sine },
        },
      ],
      follow: [{ name: 'x = 0.08 m', layer: 'bar', depth: 0.8 }],
    });
    expect(Math.abs(curve.courses[0]!.endC! / 36.6 - 1)).toBeLessThan(0.005);
    expect(curve.energy.closure).toBeLessThan(1e-6);
    expect(curve.materials).toEqual([{ name: 'Steel', basis: 'given', source: 'given' }]);
  });

  test('a plate warmed through takes up ρ c L ΔT, by hand', async () => {
    const curve = await shop.heatDesk.run({
      roomC: 20,
      layers: [{ id: 'plate', material: 'aluminium', thicknessMm: 1, jointM2KPerW: 1e-4 }],
      phases: [{ name: 'warm', seconds: 600, above: { kind: 'fixed', celsius: 200 }, below: insulated }],
    });
    const byHand = 2700 * 880 * 0.001 * (200 - 20);
    expect(Math.abs(curve.energy.storedJPerM2 / byHand - 1)).toBeLessThan(1e-6);
    expect(Math.abs(curve.energy.aboveJPerM2 / byHand - 1)).toBeLessThan(1e-6);
  });

  test('an hour at the reference temperature is a dose of an hour, whatever the energy', async () => {
    const curve = await shop.heatDesk.run({
      layers: [{ id: 'film', material: 'polyester', thicknessMm: 0.02, startC: 200 }],
      phases: [{ name: 'press', seconds: 3600, above: { kind: 'fixed', celsius: 200 }, below: insulated }],
      dye: { follow: 'film', activationKJPerMol: 150 },
    });
    expect(curve.dose!.seconds).toBeCloseTo(3600, 3);
  });

  const layers = [{ id: 'tile', material: 'glazed-ceramic', thicknessMm: 6 }];
  const phases = [{ name: 'press', seconds: 60, above: { kind: 'platen' }, below: insulated }];
  const upperPlaten = { setC: 200 };
  test.each([
    ['no layers', { layers: [], phases, upperPlaten }, 'request.invalid'],
    [
      'a material that is none',
      { layers: [{ ...layers[0], material: 'cheese' }], phases, upperPlaten },
      'press.invalid',
    ],
    [
      'a thickness below nothing',
      { layers: [{ ...layers[0], thicknessMm: -1 }], phases, upperPlaten },
      'press.invalid',
    ],
    ['two layers of one name', { layers: [layers[0], layers[0]], phases, upperPlaten }, 'press.invalid'],
    ['a negative time', { layers, phases: [{ ...phases[0], seconds: -5 }], upperPlaten }, 'press.invalid'],
    ['no platen where one presses', { layers, phases }, 'press.invalid'],
    ['a platen above the bound', { layers, phases, upperPlaten: { setC: 231 } }, 'press.unsafe'],
    [
      'an oven above the bound',
      { layers, phases: [{ ...phases[0], above: { kind: 'air', airC: 260, hWPerM2K: 6 } }] },
      'press.unsafe',
    ],
    [
      'a place in no layer',
      { layers, phases, upperPlaten, follow: [{ name: 'x', layer: 'y', depth: 0 }] },
      'press.invalid',
    ],
    ['a dye at no place', { layers, phases, upperPlaten, dye: { follow: 'x' } }, 'press.invalid'],
    [
      'a dye in no phase',
      { layers, phases, upperPlaten, dye: { follow: 'tile', phase: 'x' } },
      'press.invalid',
    ],
    ['text', 'a stack', 'request.invalid'],
    ['nothing', null, 'request.invalid'],
  ])('%s: refused', async (_, stack, code) => {
    await expect(shop.heatDesk.run(stack)).rejects.toMatchObject({
      code,
      remedy: expect.stringMatching(/\w/),
    });
  });
});

describe('force', () => {
  test('a cylinder of 50 mm at 6 bar pushes with 1178 N (tables of theoretical thrust): 11.78 N/cm² on 100 cm²', async () => {
    const answer = await shop.heatDesk.force({ pressId: 'air', areaCm2: 100, setting: 6 });
    expect(answer.newtons).toBeCloseTo(1178.1, 1);
    expect(answer.pressureNPerCm2).toBeCloseTo(11.781, 3);
    expect(answer.pressureBar).toBeCloseTo(1.1781, 4);
    // 1 bar = 14.50377 psi (NIST SP 811, from memory).
    expect(answer.pressurePsi).toBeCloseTo(1.1781 * 14.50377, 3);
  });

  test('there and back, on a blank’s own face; brittle ones come with their bow', async () => {
    const there = await shop.heatDesk.force({
      pressId: 'air',
      blankId: 'glass-board-280x390',
      pressureBar: 0.1,
    });
    const back = await shop.heatDesk.force({
      pressId: 'air',
      blankId: 'glass-board-280x390',
      setting: there.setting,
    });
    expect(there.areaCm2).toBeCloseTo(28 * 39, 6);
    expect(back.pressureBar).toBeCloseTo(0.1, 9);
    expect(there.cautions[0]).toMatchObject({
      id: 'glass',
      text: expect.stringMatching(/bow of \d+\.\d mm/),
    });
  });

  test.each([
    [{ pressId: 'swing', areaCm2: 100, setting: 3 }, 'press.invalid'],
    [{ pressId: 'air', areaCm2: 100 }, 'request.invalid'],
    [{ pressId: 'air', areaCm2: 100, setting: 3, pressureBar: 1 }, 'request.invalid'],
    [{ pressId: 'air', setting: 3 }, 'request.invalid'],
    [{ pressId: 'air', areaCm2: 100, setting: 60 }, 'press.invalid'],
    [{ pressId: 'none', areaCm2: 100, setting: 3 }, 'record.missing'],
    [{ pressId: 'air', blankId: 'none', setting: 3 }, 'record.missing'],
  ])('%j is refused: %s', async (question, code) => {
    await expect(shop.heatDesk.force(question)).rejects.toMatchObject({
      code,
      remedy: expect.stringMatching(/\w/),
    });
  });
});
