import { describe, expect, it } from 'vitest';
import { ballCentre, bisect, erf, rodAxis, slab } from './refdata/exact-solutions.js';
import { runHeat } from './run-heat.js';
import type { HeatLayer, HeatResult, HeatRun, Material, Side } from './types.js';

/** Conductivity, density, heat capacity. */
function stuff(k: number, rho: number, c: number): Material {
  return {
    id: 'stuff',
    name: 'Stuff',
    conductivityWPerMK: k,
    densityKgPerM3: rho,
    heatCapacityJPerKgK: c,
    emissivity: 0,
    source: 'the example',
    basis: 'published',
  };
}

/** Where an example gives only k and α, the split of k/α into ρ and c is free. */
const byDiffusivity = (k: number, alpha: number): Material => stuff(k, 1000, k / alpha / 1000);

const body = (
  material: Material,
  thicknessMm: number,
  startC: number,
  more: Partial<HeatLayer> = {},
): HeatLayer => ({
  id: 'body',
  material,
  thicknessMm,
  startC,
  ...more,
});

function single(
  layer: HeatLayer,
  sides: { top: Side; bottom: Side },
  seconds: number,
  depths: Record<string, number>,
  geometry: HeatRun['geometry'] = { kind: 'plane' },
  stepToleranceK = 1e-4,
): HeatResult {
  const probes = Object.entries(depths).map(([name, depth]) => ({ name, layer: layer.id, depth }));
  const run: HeatRun = {
    geometry,
    layers: [layer],
    roomC: 20,
    phases: [{ name: 'only', seconds, ...sides }],
    probes,
  };
  return runHeat(run, { boundC: Number.POSITIVE_INFINITY, stepToleranceK });
}

const last = (result: HeatResult, probe: string): number => result.probes[probe]!.at(-1)!;

/** Seconds at which a probe passes a temperature, on a straight line between samples. */
function passing(result: HeatResult, probe: string, celsius: number): number {
  const values = result.probes[probe]!;
  for (let i = 1; i < values.length; i += 1) {
    const [a, b] = [values[i - 1]!, values[i]!];
    if (a < celsius !== b < celsius) {
      const [s, t] = [result.seconds[i - 1]!, result.seconds[i]!];
      return s + ((celsius - a) / (b - a)) * (t - s);
    }
  }
  return Number.NaN;
}

/** Half a percent of the exact value. */
function near(value: number, exact: number): void {
  expect(Math.abs(value - exact) / Math.abs(exact)).toBeLessThan(0.005);
}

const insulated: Side = { kind: 'insulated' };

describe('published examples of transient conduction', () => {
  it('NAFEMS T3: 36.60 °C in a bar with one end swinging (National Agency for Finite Element Methods & Standards)', () => {
    const result = single(
      body(stuff(35, 7200, 440.5), 100, 0, { cells: 60 }),
      {
        top: { kind: 'fixed', celsius: 0 },
        bottom: { kind: 'fixed', celsius: (seconds) => 100 * Math.sin((Math.PI * seconds) / 40) },
      },
      32,
      { target: 0.8 },
    );
    near(last(result, 'target'), 36.6);
  });

  it('brass plate in an oven (Çengel, Heat Transfer, example 4-4): 279.6 °C by the whole series', () => {
    // The midplane by symmetry insulated; the book's one-term chart says 282.
    const alpha = 33.9e-6;
    const result = single(
      body(byDiffusivity(110, alpha), 20, 20),
      { top: { kind: 'air', airC: 500, hWPerM2K: 120 }, bottom: insulated },
      420,
      { face: 0, middle: 1 },
    );
    near(last(result, 'face'), 279.6);
    const exact = 500 - 480 * slab((120 * 0.02) / 110, (alpha * 420) / 0.02 ** 2, 1);
    expect(exact).toBeCloseTo(279.6, 1);
    expect(last(result, 'face')).toBeCloseTo(exact, 1);
  });

  it('boiling an egg (Çengel, example 4-3): 862.6 s by the one-term solution, 861.5 s by the whole series', () => {
    const alpha = 0.151e-6;
    const result = single(
      body(byDiffusivity(0.627, alpha), 25, 5, { cells: 120 }),
      { top: { kind: 'air', airC: 95, hWPerM2K: 1200 }, bottom: insulated },
      1000,
      { centre: 1 },
      { kind: 'sphere', radiusMm: 25, ofLayer: 'body' },
    );
    near(passing(result, 'centre', 70), 862.6);
    const biot = (1200 * 0.025) / 0.627;
    const exact = (terms: number): number =>
      bisect((s) => (70 - 95) / (5 - 95) - ballCentre(biot, (alpha * s) / 0.025 ** 2, terms), 100, 2000);
    expect(exact(1)).toBeCloseTo(862.6, 1);
    expect(Math.abs(passing(result, 'centre', 70) - exact(60))).toBeLessThan(0.4);
  });

  it('thermocouple junction (Çengel, example 4-1): 99 % in 9.9 s, lumped and resolved', () => {
    for (const lumped of [true, false]) {
      const result = single(
        body(stuff(35, 8500, 320), 0.5, 0, { lumped }),
        { top: { kind: 'air', airC: 100, hWPerM2K: 210 }, bottom: insulated },
        20,
        { centre: 0.5 },
        { kind: 'sphere', radiusMm: 0.5, ofLayer: 'body' },
      );
      // τ = ρ c (D/6)/h; t = τ ln 100 = 9.942 s.
      near(passing(result, 'centre', 99), ((8500 * 320 * 0.001) / 6 / 210) * Math.log(100));
    }
  });

  it('water main in freezing soil (Incropera): 0.677 m after 60 days', () => {
    const alpha = 0.138e-6;
    const deepMm = 8000;
    const result = single(
      body(byDiffusivity(0.52, alpha), deepMm, 20, { cells: 120 }),
      { top: { kind: 'fixed', celsius: -15 }, bottom: insulated },
      60 * 86_400,
      { safe: 677 / deepMm, half: 300 / deepMm },
    );
    // Depth rather than temperature is the answer: 0 °C must lie within half a percent of it.
    const slope = (last(result, 'safe') - last(result, 'half')) / (0.677 - 0.3);
    expect(Math.abs(last(result, 'safe') / slope)).toBeLessThan(0.005 * 0.677);
    const exact = -15 + 35 * erf(0.3 / (2 * Math.sqrt(alpha * 60 * 86_400)));
    expect(last(result, 'half')).toBeCloseTo(exact, 1);
  });

  it('thick iron slab (Som, Introduction to Heat Transfer, example 4.11): 255 °C at 80 mm after 11.48 min', () => {
    const deepMm = 1200;
    const result = single(
      body(byDiffusivity(60, 1.6e-5), deepMm, 550, { cells: 100 }),
      { top: { kind: 'fixed', celsius: 50 }, bottom: insulated },
      900,
      { probe: 80 / deepMm },
    );
    near(passing(result, 'probe', 255) / 60, 11.48);
  });

  it('pipe wall in hot oil (Incropera, example 5.4): 43.02 and 45.36 °C after 8 min by the whole series', () => {
    const result = single(
      body(byDiffusivity(63.9, 18.8e-6), 40, -20),
      { top: { kind: 'air', airC: 60, hWPerM2K: 500 }, bottom: insulated },
      480,
      { heated: 0, insulated: 1 },
    );
    near(last(result, 'insulated'), 43.02);
    near(last(result, 'heated'), 45.36);
  });

  it('a long rod agrees with its Bessel series (Incropera, eq. 5.50)', () => {
    const [k, alpha, h, radius] = [0.5, 2e-7, 60, 0.02];
    const result = single(
      body(byDiffusivity(k, alpha), 20, 100, { cells: 50 }),
      { top: { kind: 'air', airC: 0, hWPerM2K: h }, bottom: insulated },
      600,
      { axis: 1 },
      { kind: 'cylinder', radiusMm: 20, ofLayer: 'body' },
    );
    near(last(result, 'axis'), 100 * rodAxis((h * radius) / k, (alpha * 600) / radius ** 2));
  });
});

describe('limits', () => {
  it('two thick bodies meet at (e₁T₁ + e₂T₂)/(e₁ + e₂), e = √(kρc) (Incropera, eq. 5.63)', () => {
    const aluminium = stuff(230, 2700, 880);
    const slate = stuff(2, 2750, 760);
    const run: HeatRun = {
      geometry: { kind: 'plane' },
      layers: [
        { id: 'plate', material: aluminium, thicknessMm: 400, startC: 200, cells: 150 },
        { id: 'stone', material: slate, thicknessMm: 40, startC: 20, cells: 150 },
      ],
      roomC: 20,
      phases: [{ name: 'touch', seconds: 20, top: insulated, bottom: insulated }],
      probes: [
        { name: 'above', layer: 'plate', depth: 1 },
        { name: 'below', layer: 'stone', depth: 0 },
      ],
    };
    const result = runHeat(run, { stepToleranceK: 1e-4 });
    const [e1, e2] = [Math.sqrt(230 * 2700 * 880), Math.sqrt(2 * 2750 * 760)];
    const exact = (e1 * 200 + e2 * 20) / (e1 + e2);
    // Constant from the first moment on, as long as neither far side has noticed.
    result.seconds.forEach((seconds, i) => {
      if (seconds < 1) return;
      expect(result.probes.below![i]).toBeCloseTo(exact, 1);
      expect(result.probes.above![i]).toBeCloseTo(exact, 1);
    });
  });

  it('a thin shell follows exp(−t/τ), τ = ρ c V/(h A) (Incropera, eq. 5.6)', () => {
    const result = single(
      body(stuff(230, 2700, 880), 1, 180),
      { top: { kind: 'air', airC: 20, hWPerM2K: 8 }, bottom: { kind: 'air', airC: 20, hWPerM2K: 8 } },
      150,
      { middle: 0.5 },
    );
    const tau = (2700 * 880 * 0.001) / 16;
    near(last(result, 'middle'), 20 + 160 * Math.exp(-150 / tau));
  });

  it('a layered wall comes to rest at its resistances in series (Incropera, eq. 3.12), curved ones too (3.29)', () => {
    const layers: HeatLayer[] = [
      { id: 'paper', material: stuff(0.18, 930, 1340), thicknessMm: 0.1, startC: 20, contactM2KPerW: 4e-4 },
      { id: 'wall', material: stuff(1.4, 2500, 840), thicknessMm: 5, startC: 20, contactM2KPerW: 8e-4 },
      { id: 'pad', material: stuff(0.1, 400, 1300), thicknessMm: 8, startC: 20, contactM2KPerW: 2e-4 },
    ];
    const rest = (geometry: HeatRun['geometry']): HeatResult =>
      runHeat({
        geometry,
        layers,
        roomC: 20,
        phases: [
          {
            name: 'hold',
            seconds: 40_000,
            top: { kind: 'fixed', celsius: 200 },
            bottom: { kind: 'air', airC: 20, hWPerM2K: 10 },
          },
        ],
        probes: [
          { name: 'face', layer: 'wall', depth: 0 },
          { name: 'back', layer: 'pad', depth: 1 },
        ],
      });
    const parts = [4e-4, 1e-4 / 0.18, 8e-4, 0.005 / 1.4, 2e-4, 0.008 / 0.1, 1 / 10];
    const whole = parts.reduce((a, b) => a + b, 0);
    const flat = rest({ kind: 'plane' });
    expect(last(flat, 'face')).toBeCloseTo(200 - (180 * (parts[0]! + parts[1]! + parts[2]!)) / whole, 3);
    expect(last(flat, 'back')).toBeCloseTo(20 + (180 * parts[6]!) / whole, 3);

    // The same round a mug of 41 mm outer radius; per unit of the wall's face, R = r ln(rₒ/rᵢ)/k and r/(h rᵢ).
    const r = 0.041;
    const [outer, inner, innermost] = [r + 0.0001, r - 0.005, r - 0.013];
    const round = [
      (4e-4 * r) / outer,
      (r * Math.log(outer / r)) / 0.18,
      8e-4,
      (r * Math.log(r / inner)) / 1.4,
      (2e-4 * r) / inner,
      (r * Math.log(inner / innermost)) / 0.1,
      r / (innermost * 10),
    ];
    const total = round.reduce((a, b) => a + b, 0);
    const mug = rest({ kind: 'cylinder', radiusMm: 41, ofLayer: 'wall' });
    expect(last(mug, 'face')).toBeCloseTo(200 - (180 * (round[0]! + round[1]! + round[2]!)) / total, 2);
    expect(last(mug, 'back')).toBeCloseTo(20 + (180 * round[6]!) / total, 2);
  });

  it('a platen round a curved stack shares its drop out by the same resistances', () => {
    const [r, R] = [0.02, 0.03];
    const run: HeatRun = {
      geometry: { kind: 'sphere', radiusMm: 20, ofLayer: 'inner' },
      layers: [
        { id: 'outer', material: stuff(0.4, 900, 1300), thicknessMm: 10, startC: 20, contactM2KPerW: 5e-3 },
        { id: 'inner', material: stuff(1.4, 2500, 840), thicknessMm: 10, startC: 20 },
      ],
      topPlaten: {
        setC: 200,
        startC: 200,
        heatCapacityJPerM2K: 5000,
        maxWPerM2: 50_000,
        bandK: 5,
        lossWPerM2K: 5,
        openFace: { hWPerM2K: 5, emissivity: 0 },
      },
      roomC: 20,
      phases: [
        {
          name: 'hold',
          seconds: 20_000,
          top: { kind: 'platen' },
          bottom: { kind: 'air', airC: 20, hWPerM2K: 40 },
        },
      ],
      probes: [{ name: 'joint', layer: 'inner', depth: 0 }],
    };
    const result = runHeat(run);
    // Per unit of the inner ball's face: contact at R, shell R..r (Incropera, eq. 3.36), shell r..r/2, air at r/2.
    const outside = 5e-3 * (r / R) ** 2 + (r * r * (1 / r - 1 / R)) / 0.4;
    const inside = (r * r * (2 / r - 1 / r)) / 1.4 + 4 / 40;
    const platen = result.topPlatenC!.at(-1)!;
    expect(last(result, 'joint')).toBeCloseTo(platen - ((platen - 20) * outside) / (outside + inside), 2);
  });

  it('agrees with the slab series over random Bi and Fo', () => {
    // A fixed sequence spread over Bi 0.02..50 and Fo 0.05..2 (golden-ratio steps).
    for (let i = 1; i <= 25; i += 1) {
      const biot = 0.02 * 2500 ** ((i * 0.618034) % 1);
      const fourier = 0.05 * 40 ** ((i * 0.754878) % 1);
      const [k, length, alpha] = [1.4, 0.01, 1.4 / (2500 * 840)];
      const result = single(
        body(stuff(1.4, 2500, 840), 10, 20, { cells: 40 }),
        { top: { kind: 'air', airC: 220, hWPerM2K: (biot * k) / length }, bottom: insulated },
        (fourier * length * length) / alpha,
        { face: 0, quarter: 0.75, back: 1 },
        { kind: 'plane' },
        1e-3,
      );
      for (const [probe, at] of [
        ['face', 1],
        ['quarter', 0.25],
        ['back', 0],
      ] as const)
        expect(Math.abs(last(result, probe) - (220 - 200 * slab(biot, fourier, at)))).toBeLessThan(0.1);
    }
  });

  it('an oven heats a thin shell by T⁴ as closed integration says (Incropera, eq. 5.18)', () => {
    const [epsilon, sigma] = [0.85, 5.670374419e-8];
    const capacity = 2700 * 880 * 0.001;
    const [start, oven] = [20 + 273.15, 200 + 273.15];
    // t = C/(4εσT³) { ln|(T+θ)/(T−θ)| − ln|(T+θᵢ)/(T−θᵢ)| + 2[atan(θ/T) − atan(θᵢ/T)] }
    const time = (theta: number): number => {
      const part = (x: number): number => Math.log((oven + x) / (oven - x)) + 2 * Math.atan(x / oven);
      return (capacity / (4 * epsilon * sigma * oven ** 3)) * (part(theta) - part(start));
    };
    const result = single(
      body(stuff(230, 2700, 880), 1, 20, { lumped: true }),
      { top: { kind: 'air', airC: 200, hWPerM2K: 0, emissivity: epsilon }, bottom: insulated },
      800,
      { shell: 0.5 },
    );
    for (const celsius of [60, 120, 170]) near(passing(result, 'shell', celsius), time(celsius + 273.15));
  });
});
