import { describe, expect, it } from 'vitest';
import { d65Table } from './refdata/d65.js';
import { d50Power, daylight, reflectanceToXyz, spectralWeights } from './spectra.js';

const sum = (weights: readonly (readonly number[])[]): number[] =>
  [0, 1, 2].map((j) => weights.reduce((total, w) => total + w[j]!, 0));

describe('CIE daylight', () => {
  it('gives the published D65 table (ISO/CIE 11664-2:2022) within the rounding of its components', () => {
    // The nominal 6500 K brought to today's radiation constant, as CIE 15:2004 3.1 does for D65.
    const d65 = daylight((6500 * 1.4388) / 1.438);
    d65Table.forEach((power, i) => {
      // Components have one decimal and are multiplied by up to 2.6; D65 itself was made from 1 nm tables.
      expect(Math.abs(d65(380 + 5 * i) - power)).toBeLessThan(0.06);
    });
  });
});

describe('weights (ASTM E308)', () => {
  it('add up to the white of D50: 96.422, 100, 82.521 (ASTM E308 table 5)', () => {
    for (const [first, step, count] of [
      [380, 10, 36],
      [380, 5, 81],
      [400, 20, 16],
    ] as const) {
      const [x, y, z] = sum(spectralWeights(first, step, count));
      expect(x).toBeCloseTo(96.422, 1);
      expect(y).toBeCloseTo(100, 9);
      expect(z).toBeCloseTo(82.521, 1);
    }
  });

  it('are those of ASTM E308-15, table 6, for D65, 2°, 20 nm from 400 to 700 nm', () => {
    // As printed in the tests of colour-science (BSD), which cite ASTM E308-15.
    const published = [
      [0.17, 0.002, 0.785],
      [2.542, 0.071, 12.203],
      [6.67, 0.453, 33.637],
      [6.333, 1.316, 36.334],
      [2.213, 2.933, 18.278],
      [0.052, 6.866, 5.543],
      [1.348, 14.106, 1.611],
      [5.767, 18.981, 0.382],
      [11.301, 18.863, 0.068],
      [16.256, 15.455, 0.025],
      [17.933, 10.699, 0.013],
      [14.02, 6.277, 0.003],
      [7.057, 2.743, 0],
      [2.527, 0.927, 0],
      [0.67, 0.242, 0],
      [0.185, 0.067, 0],
    ];
    const table = (nm: number): number => {
      const i = Math.min(79, Math.floor((nm - 380) / 5));
      return d65Table[i]! + ((nm - 380) / 5 - i) * (d65Table[i + 1]! - d65Table[i]!);
    };
    const ours = spectralWeights(400, 20, 16, table);
    // Printed to three decimals. ASTM sums from 360 nm, ours from 380: 0.02 of Z, all in the first row.
    published.forEach((row, i) => {
      row.forEach((weight, j) => {
        expect(Math.abs(ours[i]![j]! - weight), `${400 + 20 * i} nm`).toBeLessThan(i === 0 ? 0.025 : 0.004);
      });
    });
  });

  it('give the worked example of colour-science for illuminant A, 10 nm, 400 to 700 nm', () => {
    const reflectance = [
      0.0641, 0.0654, 0.0645, 0.0605, 0.0562, 0.0543, 0.0537, 0.0541, 0.0559, 0.0603, 0.0651, 0.068, 0.0705,
      0.0736, 0.0772, 0.0809, 0.087, 0.099, 0.1128, 0.1251, 0.136, 0.1439, 0.1511, 0.159, 0.1688, 0.1828,
      0.1996, 0.2187, 0.2397, 0.2618, 0.2852,
    ];
    // CIE standard illuminant A (ISO/CIE 11664-2:2022, eq. 1).
    const a = (nm: number): number =>
      100 * (560 / nm) ** 5 * (Math.expm1(1.435e7 / (2848 * 560)) / Math.expm1(1.435e7 / (2848 * nm)));
    const weights = spectralWeights(400, 10, 31, a);
    const xyz = [0, 1, 2].map((j) => reflectance.reduce((total, r, i) => total + r * weights[i]![j]!, 0));
    // sd_to_XYZ_ASTME308, from that library's own tests.
    [14.54137532, 10.88641727, 2.04931318].forEach((v, j) => {
      expect(Math.abs(xyz[j]! - v)).toBeLessThan(0.003);
    });
  });
});

describe('reflectance to XYZ', () => {
  it('puts the perfect diffuser on the PCS white 96.42, 100, 82.49 (ICC.1:2022, 7.2.16)', () => {
    const [white] = reflectanceToXyz([Array(36).fill(1)], 380, 10);
    expect(white![0]).toBeCloseTo(96.42, 9);
    expect(white![1]).toBeCloseTo(100, 9);
    expect(white![2]).toBeCloseTo(82.49, 9);
  });

  it('hardly depends on the step, for a smooth surface', () => {
    const at = (nm: number): number => 0.4 + 0.3 * Math.sin(nm / 45);
    const every = (step: number): number[] =>
      Array.from({ length: 300 / step + 1 }, (_, i) => at(400 + step * i));
    const [fine] = reflectanceToXyz([every(5)], 400, 5);
    const [usual] = reflectanceToXyz([every(10)], 400, 10);
    fine!.forEach((v, j) => {
      expect(usual![j]).toBeCloseTo(v, 1);
    });
  });

  it('refuses spectra that leave out what the eye sees', () => {
    expect(() => reflectanceToXyz([Array(20).fill(0.5)], 500, 10)).toThrow(/cannot be turned into colours/);
  });

  it('D50 has its published chromaticity 0.3457, 0.3585 (CIE 15:2004, table T.3)', () => {
    const [x, y, z] = sum(spectralWeights(380, 5, 81, d50Power));
    expect(x! / (x! + y! + z!)).toBeCloseTo(0.3457, 4);
    expect(y! / (x! + y! + z!)).toBeCloseTo(0.3585, 4);
  });
});
