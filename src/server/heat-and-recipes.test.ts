import { describe, expect, test } from 'vitest';
import type { HeatCurve, HeatLook, RecipeSuggestion, RecipeVersion } from '#contract';
import { json, testServer } from '../../tests/shop/http.js';

const { call, expectProblem, theShop } = testServer();
const post = (url: string, value: unknown) => call('POST', url, json(value));

describe('heat', () => {
  test('a look, a stack and a force', async () => {
    const look = await post('/api/heat', { blankId: 'hardboard-coaster-95', coolSeconds: 60 });
    expect(look.statusCode, look.body).toBe(200);
    expect(look.json<HeatLook>().courses[0]!.name).toBe('dye');

    const stack = {
      layers: [{ id: 'tile', material: 'glazed-ceramic', thicknessMm: 6 }],
      upperPlaten: { setC: 200 },
      phases: [{ name: 'press', seconds: 60, above: { kind: 'platen' }, below: { kind: 'insulated' } }],
      points: 5,
    };
    const curve = await post('/api/heat/stack', stack);
    expect(curve.statusCode, curve.body).toBe(200);
    expect(curve.json<HeatCurve>().seconds).toEqual([0, 15, 30, 45, 60]);

    await theShop().presses.save('scale', {
      id: 'scale',
      name: 'Weighed',
      kind: 'flat',
      platenWidthMm: 380,
      platenDepthMm: 380,
      drive: {
        kind: 'weighed',
        points: [
          { setting: 1, newtons: 200 },
          { setting: 3, newtons: 600 },
        ],
      },
    });
    const force = await post('/api/force', { pressId: 'scale', areaCm2: 100, setting: 2 });
    expect(force.json()).toMatchObject({ newtons: 400, pressureNPerCm2: 4 });
  });

  test('what is refused is told as a problem, with what to do', async () => {
    expectProblem(await post('/api/heat', { blankId: 'gone' }), 404, 'record.missing');
    expectProblem(
      await post('/api/heat', { blankId: 'hardboard-coaster-95', platenC: 240 }),
      422,
      'press.unsafe',
    );
    expectProblem(
      await post('/api/heat', { blankId: 'hardboard-coaster-95', dwellSeconds: -5 }),
      422,
      'request.invalid',
    );
    expectProblem(await post('/api/heat/stack', { layers: [] }), 422, 'request.invalid');
    expectProblem(
      await post('/api/force', { pressId: 'gone', areaCm2: 1, setting: 1 }),
      404,
      'record.missing',
    );
  });
});

describe('recipes', () => {
  const at = '/api/blanks/aluminium-sheet-200x300/recipes';

  test('versions, a start recipe adopted, and what to set', async () => {
    const asked = await post('/api/recipes/suggest', {
      blankId: 'aluminium-sheet-200x300',
      knownBlankId: 'hardboard-coaster-95',
    });
    expect(asked.statusCode, asked.body).toBe(200);
    const suggestion = asked.json<RecipeSuggestion>();
    const adopted = await post(at, {
      from: 'heat',
      knownBlankId: suggestion.knownBlankId,
      platenC: suggestion.platenC,
      dwellSeconds: Math.round(suggestion.dwellSeconds!.value),
      pressId: 'scale',
    });
    expect(adopted.statusCode, adopted.body).toBe(201);
    const versions = (await call('GET', at)).json<RecipeVersion[]>();
    expect(versions.map(({ number, ground }) => [number, ground.kind])).toEqual([
      [2, 'heat'],
      [1, 'stock'],
    ]);
    expect((await call('GET', '/api/blanks/aluminium-sheet-200x300')).json().recipe).toEqual(
      versions[0]!.recipe,
    );
    expect((await call('GET', `${at}/on/scale`)).json()).toMatchObject({ setC: 200, offsetK: null });
  });

  test('what is refused is told as a problem', async () => {
    expectProblem(await call('GET', '/api/blanks/gone/recipes'), 404, 'record.missing');
    expectProblem(await call('GET', `${at}/on/gone`), 404, 'record.missing');
    expectProblem(await post(at, { from: 'version', number: 77 }), 404, 'record.missing');
    expectProblem(await post(at, { from: 'nowhere' }), 422, 'request.invalid');
    expectProblem(
      await post('/api/recipes/suggest', { blankId: 'plain-tile-ceramic-108' }),
      422,
      'press.invalid',
    );
  });
});
