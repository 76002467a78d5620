import { describe, expect, it } from 'vitest';
import { bandRadiance, shareBelow, trueCelsius } from './radiance.js';

describe('what an infra-red thermometer sees', () => {
  // Blackbody radiation functions, Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, Table 12.1 (from memory).
  // The table was made with c₂ = 1.4388e4 µm·K; the present value moves its fifth digit.
  it.each([
    [1000, 0.000321],
    [1400, 0.00779],
    [2000, 0.066728],
    [2898, 0.250108],
    [4000, 0.480877],
    [5000, 0.633747],
    [6000, 0.737818],
    [10000, 0.914199],
  ])('below λT = %d µm·K lies the published share %d', (product, share) => {
    expect(Math.abs(shareBelow(product) - share)).toBeLessThan(6e-5);
  });

  // Brightness temperatures of tungsten at 0.665 µm, Roeser & Wensel 1941, as in the CRC Handbook (from memory).
  it.each([
    [1000, 0.458, 966],
    [2000, 0.435, 1857],
    [3000, 0.415, 2673],
  ])('tungsten of %d K and emissivity %d looks as hot as %d K', (kelvin, emissivity, looks) => {
    const around = -273.15 + 77;
    const back = trueCelsius(looks - 273.15, 1, emissivity, around, [0.66, 0.67]) + 273.15;
    // The tables are rounded to whole kelvin and three digits of emissivity.
    expect(Math.abs(back / kelvin - 1)).toBeLessThan(1.5e-3);
  });

  it('over all wavelengths it is the law of Stefan and Boltzmann: ε T⁴ (σ cancels)', () => {
    const all = [0.05, 5000] as const;
    expect(bandRadiance(600, all) / bandRadiance(300, all)).toBeCloseTo(16, 3);
    const cold = -273.15 + 60;
    const back = trueCelsius(200, 1, 0.8, cold, all) + 273.15;
    expect(back / 473.15).toBeCloseTo((1 / 0.8) ** 0.25, 3);
  });

  it('undoes Planck’s law added up wavelength by wavelength, with the room thrown back', () => {
    const sum = (celsius: number): number => {
      let total = 0;
      for (let um = 8.0005; um < 14; um += 0.001)
        total += 0.001 / um ** 5 / Math.expm1(14387.77 / (um * (celsius + 273.15)));
      return total;
    };
    const [truth, face, set, room] = [203, 0.9, 0.95, 22];
    const received = face * sum(truth) + (1 - face) * sum(room);
    let [low, high] = [100, 300];
    for (let i = 0; i < 40; i += 1) {
      const middle = (low + high) / 2;
      if (set * sum(middle) + (1 - set) * sum(room) < received) low = middle;
      else high = middle;
    }
    expect(trueCelsius(low, set, face, room)).toBeCloseTo(truth, 2);
    expect(low).toBeLessThan(truth - 4);
  });

  it('the same emissivity as set changes nothing', () => {
    expect(trueCelsius(187.5, 0.95, 0.95, 25)).toBeCloseTo(187.5, 6);
  });
});
