/**
 * Exact by definition: pound 0.45359237 kg and inch 25.4 mm (international yard and pound, 1959), standard gravity
 * 9.80665 m/s² (CGPM 1901), bar 10⁵ Pa. Held in tests to the printed factors of NIST SP 811, appendix B.
 */
export const standardGravityMPerS2 = 9.806_65;
export const newtonsPerKgf = standardGravityMPerS2;
export const newtonsPerLbf = 0.453_592_37 * standardGravityMPerS2;
export const pascalPerBar = 1e5;
export const pascalPerPsi = newtonsPerLbf / 0.0254 ** 2;
export const pascalPerNPerCm2 = 1e4;
export const pascalPerKgfPerCm2 = newtonsPerKgf * 1e4;

export const pressureUnits = {
  bar: pascalPerBar,
  psi: pascalPerPsi,
  'N/cm²': pascalPerNPerCm2,
  'kgf/cm²': pascalPerKgfPerCm2,
  kPa: 1000,
} as const;

export type PressureUnit = keyof typeof pressureUnits;

export const toPascal = (value: number, unit: PressureUnit): number => value * pressureUnits[unit];
export const fromPascal = (pascal: number, unit: PressureUnit): number => pascal / pressureUnits[unit];

export const forceUnits = { N: 1, kgf: newtonsPerKgf, lbf: newtonsPerLbf } as const;
export type ForceUnit = keyof typeof forceUnits;
export const toNewtons = (value: number, unit: ForceUnit): number => value * forceUnits[unit];
export const fromNewtons = (newtons: number, unit: ForceUnit): number => newtons / forceUnits[unit];
