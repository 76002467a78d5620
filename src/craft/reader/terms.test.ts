import { describe, expect, it } from 'vitest';
import { cubeRootTerms, matrixTerms, rootTerms } from './terms.js';

describe('terms of the linear fits', () => {
  // colour-science library, documentation of polynomial_expansion_Finlayson2015, degree 2 (numbers as printed there).
  const rgb = [0.1722481, 0.0917066, 0.06416938] as const;
  const published = [0.1722481, 0.0917066, 0.0641693, 0.1256832, 0.0767121, 0.1051335];

  it('are those of root polynomials as published, and a constant', () => {
    rootTerms(2)(rgb).forEach((v, i) => {
      expect(v).toBeCloseTo(published[i] ?? 1, 6);
    });
    expect(rootTerms(2)(rgb)).toHaveLength(7);
    expect(rootTerms(3)(rgb)).toHaveLength(14);
  });

  it('of root polynomials scale with exposure: what they are for (Finlayson, Mackiewicz & Hurlbert 2015)', () => {
    const brighter = rgb.map((v) => 1.7 * v) as unknown as typeof rgb;
    for (const terms of [matrixTerms, rootTerms(2), rootTerms(3)]) {
      const before = terms(rgb).slice(0, -1);
      terms(brighter)
        .slice(0, -1)
        .forEach((v, i) => {
          expect(v).toBeCloseTo(1.7 * before[i]!, 12);
        });
    }
  });

  it('of cube roots are all products up to the degree: 4, 10 and 20', () => {
    expect(([1, 2, 3] as const).map((degree) => cubeRootTerms(degree)(rgb).length)).toEqual([4, 10, 20]);
  });

  it('stay finite for light below nought, which flat-fielding can leave', () => {
    for (const terms of [matrixTerms, rootTerms(3), cubeRootTerms(3)]) {
      expect(terms([-0.002, 0, 1.2]).every(Number.isFinite)).toBe(true);
    }
  });
});
