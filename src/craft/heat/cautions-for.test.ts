import { describe, expect, it } from 'vitest';
import { cautionsFor } from './cautions-for.js';

const ids = (...[pressing]: Parameters<typeof cautionsFor>) => cautionsFor(pressing).map(({ id }) => id);

// Which hold where: common practice.
describe('cautions of one way of pressing', () => {
  it('cloth is not wiped, and does not crack', () => {
    expect(ids({ material: 'textile', kind: 'flat' })).toEqual(['hot', 'fumes', 'ptfe', 'circuit']);
  });
  it.each(['glass', 'ceramic', 'slate'])('%s may crack', (material) => {
    expect(ids({ material, kind: 'flat' })).toContain('glass');
  });
  it('metal does not, and a blank not known might', () => {
    expect(ids({ material: 'metal', kind: 'flat' })).not.toContain('glass');
    expect(ids({ material: null, kind: 'flat' })).toContain('glass');
  });
  it('an oven is no kitchen oven again', () => {
    expect(ids({ material: 'ceramic', kind: 'oven' })).toContain('oven');
    expect(ids({ material: 'ceramic', kind: 'flat' })).not.toContain('oven');
  });
  it.each([
    ['mug', null, false],
    ['mug', 350, false],
    ['flat', null, true],
    ['flat', 1800, true],
    ['flat', 600, false],
  ] as const)('a %s press of %s W may load a circuit: %s', (kind, watts, may) => {
    expect(ids({ material: 'ceramic', kind, watts }).includes('circuit')).toBe(may);
  });
});
