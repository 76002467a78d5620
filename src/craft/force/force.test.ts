import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import {
  brittleCaution,
  forceNewtons,
  fromPascal,
  newtonsFor,
  type PressDrive,
  pressurePascal,
  settingFor,
  toNewtons,
  toPascal,
} from './index.js';

describe('units', () => {
  // NIST Special Publication 811 (2008), appendix B.8, seven digits; factors from memory.
  it.each([
    ['psi', 6.894757e3],
    ['bar', 1e5],
    ['kgf/cm²', 9.80665e4],
    ['N/cm²', 1e4],
    ['kPa', 1e3],
  ] as const)('a %s is %d Pa', (unit, pascal) => {
    expect(Math.abs(toPascal(1, unit) / pascal - 1)).toBeLessThan(1e-7);
    expect(fromPascal(toPascal(3.5, unit), unit)).toBeCloseTo(3.5, 12);
  });
  it('a pound-force is 4.448222 N, a kilogram-force 9.80665 N (NIST SP 811, from memory)', () => {
    expect(toNewtons(1, 'lbf')).toBeCloseTo(4.448222, 6);
    expect(toNewtons(1, 'kgf')).toBe(9.80665);
  });
});

describe('drives', () => {
  // Cylinder makers print theoretical thrust at 6 bar: 32 mm 483 N, 50 mm 1178 N, 100 mm 4712 N (from memory).
  it.each([
    [32, 483],
    [50, 1178],
    [100, 4712],
  ])('a cylinder of %d mm at 6 bar pushes with %d N (tables of theoretical thrust)', (boreMm, newtons) => {
    expect(forceNewtons({ kind: 'air-cylinder', boreMm, lossShare: 0 }, 6)).toBeCloseTo(newtons, 0);
  });

  it('on the rod side 50/20 mm at 6 bar pulls with 990 N (tables of theoretical thrust)', () => {
    expect(forceNewtons({ kind: 'air-cylinder', boreMm: 50, rodMm: 20, lossShare: 0 }, 6)).toBeCloseTo(
      990,
      0,
    );
  });

  const drives: PressDrive[] = [
    { kind: 'air-cylinder', boreMm: 63, leverRatio: 3, platenKg: 12, cylinders: 2 },
    { kind: 'spring', newtonsPerMm: 40, mmPerTurn: 1.5, touchesAtTurns: 2, leverRatio: 4 },
    {
      kind: 'weighed',
      points: [
        { setting: 1, newtons: 100 },
        { setting: 2, newtons: 350 },
        { setting: 4, newtons: 700 },
      ],
    },
  ];
  it.each(drives)('$kind: the setting for a force gives that force', (drive) => {
    fc.assert(
      fc.property(fc.double({ min: 240, max: 690, noNaN: true }), (newtons) => {
        expect(forceNewtons(drive, settingFor(drive, newtons))).toBeCloseTo(newtons, 6);
      }),
      { seed: 3 },
    );
  });

  it('pressure falls with the area: 1000 N are 10 N/cm² on 100 cm², and 40 psi on 38 × 38 cm want 4 tonnes', () => {
    expect(fromPascal(pressurePascal(1000, 100), 'N/cm²')).toBeCloseTo(10, 9);
    expect(newtonsFor(toPascal(40, 'psi'), 38 * 38) / 9.80665).toBeCloseTo(4061, 0);
    // A sheet larger than the platen is pressed under the platen only.
    expect(pressurePascal(1000, 900, 100)).toBe(pressurePascal(1000, 100));
  });

  it('refuses what cannot be', () => {
    const refused = (f: () => unknown): void => {
      try {
        f();
      } catch (thrown) {
        expect(isProblem(thrown) && thrown.code).toBe('press.invalid');
        return;
      }
      expect.unreachable();
    };
    refused(() => forceNewtons({ kind: 'air-cylinder', boreMm: 0 }, 6));
    refused(() => forceNewtons({ kind: 'air-cylinder', boreMm: 50 }, 60));
    refused(() => forceNewtons({ kind: 'air-cylinder', boreMm: 50 }, Number.NaN));
    refused(() => settingFor({ kind: 'air-cylinder', boreMm: 50, platenKg: 30 }, 100));
    refused(() => forceNewtons({ kind: 'weighed', points: [{ setting: 1, newtons: 5 }] }, 1));
    refused(() =>
      forceNewtons(
        {
          kind: 'weighed',
          points: [
            { setting: 1, newtons: 5 },
            { setting: 2, newtons: 4 },
          ],
        },
        1,
      ),
    );
    refused(() => forceNewtons(drives[2]!, 9));
    refused(() => pressurePascal(100, 0));
  });
});

describe('brittle pieces', () => {
  it('a beam bent to an arc strains its face by t/2R (Euler–Bernoulli): the arc’s own radius, not the formula', () => {
    const [L, w, t] = [200, 0.3, 5];
    // Radius of the circle through both ends and the raised middle.
    const radius = ((L / 2) ** 2 + w ** 2) / (2 * w);
    const expected = (70_000 * t) / (2 * radius);
    expect(brittleCaution('glass', { thicknessMm: t, lengthMm: L, bowMm: w }).flatteningMPa).toBeCloseTo(
      expected,
      2,
    );
  });

  it('warns of a bowed glass, not of a flat one, and defers to the maker in both', () => {
    const bowed = brittleCaution('glass', { thicknessMm: 5, lengthMm: 200, bowMm: 0.5 });
    const flat = brittleCaution('glass', { thicknessMm: 5, lengthMm: 200, bowMm: 0.05 });
    expect([bowed.takeCare, flat.takeCare]).toEqual([true, false]);
    for (const { text } of [bowed, flat]) expect(text).toMatch(/maker’s pressure comes first/);
  });
});
