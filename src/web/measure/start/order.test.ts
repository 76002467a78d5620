import { describe, expect, it } from 'vitest';
import { testSheetOrderSchema } from '#contract';
import { flatFace, orderOf, type StartChoice } from './order.js';

const choice: StartChoice = {
  kind: 'colour',
  setup: { id: 'desk' } as never,
  blank: {
    id: 'tile',
    shape: { kind: 'rectangle', widthMm: 152, heightMm: 152, cornerRadiusMm: 0 },
  } as never,
  path: { id: 'slate' } as never,
  patches: 150,
  size: 'paper',
  ownMm: { widthMm: 200, heightMm: 280 },
  material: null,
  towards: 'doubt',
  artworkId: null,
};

describe('what is ordered', () => {
  // Held to the contract's own schema.
  it.each(['colour', 'follow-up', 'check', 'grey', 'palette'] as const)(
    '%s is in the contract’s form',
    (kind) => {
      const order = orderOf({ ...choice, kind, patches: 40, size: 'own', material: 'fabric' });
      expect(testSheetOrderSchema.parse(order)).toMatchObject({ kind, setupId: 'desk', widthMm: 200 });
    },
  );
  it('leaves the size to the setup’s paper', () => {
    expect(orderOf(choice)).toEqual({ kind: 'colour', setupId: 'desk', blankId: 'tile', patches: 150 });
  });
  it('asks nothing while something is missing', () => {
    expect(orderOf({ ...choice, blank: null })).toBeNull();
    expect(orderOf({ ...choice, kind: 'check', path: null })).toBeNull();
    expect(orderOf({ ...choice, kind: 'follow-up', towards: 'artwork' })).toBeNull();
  });
  it('takes a face only where a sheet can lie flat', () => {
    expect(flatFace(choice.blank)).toEqual({ widthMm: 152, heightMm: 152 });
    // The square inside a circle of 100 mm has sides of 100/√2 = 70.71 mm.
    const round = { shape: { kind: 'ellipse', widthMm: 100, heightMm: 100 } } as never;
    expect(flatFace(round)).toEqual({ widthMm: 70.7, heightMm: 70.7 });
    const mug = {
      shape: { kind: 'cylinder', diameterMm: 82, heightMm: 95, gapMm: 20, handle: true },
    } as never;
    expect(flatFace(mug)).toBeNull();
  });
});
