import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { choosePatches, colourSheetId, planColourSheet } from '#craft/testsheet';
import type { LikePatch } from './like-groups.js';
import { dyeField } from './press-evenness.js';
import type { LinearRgb } from './types.js';

const recipe = { count: 200, seed: 3, material: 'hard' } as const;
const { layout } = planColourSheet({
  sheetId: colourSheetId(recipe),
  ...recipe,
  patches: choosePatches(recipe.count, recipe.seed),
  widthMm: 210,
  heightMm: 297,
  marginMm: 3,
  mirrorOnWriting: true,
});
const ground: LinearRgb = [0.9, 0.88, 0.8];

/** Patches whose dye takes light by Bouguer's law with noise in the light, `dye` by place −1..1. */
function pressed(seed: number, noise: number, dye: (u: number, v: number) => number): LikePatch[] {
  const random = createRandom(seed);
  const { area } = layout;
  return layout.patches.map(({ rect, deviceRgb }) => {
    const at = { x: rect.xMm + rect.widthMm / 2, y: rect.yMm + rect.heightMm / 2 };
    const d = dye((2 * (at.x - area.xMm)) / area.widthMm - 1, (2 * (at.y - area.yMm)) / area.heightMm - 1);
    const rgb = deviceRgb.map((v, c) => {
      const density = 2.5 * (1 - v / 255) ** 1.4;
      return ground[c]! * Math.exp(-density * d) + noise * random.normal();
    });
    return { at, deviceRgb, rgb: rgb as unknown as LinearRgb };
  });
}

describe('evenness of the press', () => {
  it('finds none where there is none: at most 3 false alarms in 100 sheets', () => {
    let alarms = 0;
    for (let seed = 1; seed <= 100; seed += 1) {
      // Noise large enough that a chance field would be worth speaking of.
      if (
        dyeField(
          layout,
          pressed(seed, 0.01, () => 1),
          ground,
        ).evenness.isKnown
      )
        alarms += 1;
    }
    expect(alarms).toBeLessThanOrEqual(3);
  });

  it('finds a slope and a hollow, and says where', () => {
    const dye = (u: number, v: number): number => 1 - 0.05 * u + 0.03 * v - 0.04 * v * v;
    const field = dyeField(layout, pressed(7, 0.003, dye), ground);
    expect(field.evenness.isKnown).toBe(true);
    expect(field.evenness.least.where).toBe('at the top right');
    expect(field.evenness.most.where).toMatch(/left/);
    const { area } = layout;
    const at = (u: number, v: number): number =>
      field.dyeAt(
        { x: area.xMm + ((u + 1) / 2) * area.widthMm, y: area.yMm + ((v + 1) / 2) * area.heightMm },
        1,
      );
    for (const [u, v] of [
      [-0.9, -0.9],
      [0.9, -0.9],
      [0, 0],
      [0.5, 0.9],
    ] as const) {
      expect(at(u, v) / at(0, 0)).toBeCloseTo(dye(u, v) / dye(0, 0), 1);
      expect(Math.abs(at(u, v) / at(0, 0) - dye(u, v) / dye(0, 0))).toBeLessThan(0.012);
    }
  });

  it('says nothing from too few likes', () => {
    const few = pressed(7, 0.003, (u) => 1 - 0.2 * u).slice(0, 12);
    expect(dyeField(layout, few, ground).evenness.isKnown).toBe(false);
  });
});
