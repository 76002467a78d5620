import { describe, expect, it } from 'vitest';
import { materials } from './materials.js';
import { flatPressRun, guessedJointM2KPerW } from './press-stack.js';
import { reachesAt } from './run-facts.js';
import { runHeat } from './run-heat.js';

const request = {
  blank: { material: materials['glazed-ceramic'], thicknessMm: 6 },
  setC: 204,
  pressure: 'medium',
} as const;

describe('a tile that lies face down', () => {
  it('at rest, temperatures fall as resistances in series do (Fourier’s law, by hand)', () => {
    const result = runHeat(flatPressRun({ ...request, faceDown: true }, { dwellSeconds: 20_000 }));
    const platenC = result.topPlatenC!.at(-1)!;
    const [back, dye] = ['back', 'dye'].map((probe) => result.probes[probe]!.at(-1)!);
    // Two joints and the cover paper lie above the tile's back; tile and coating between it and the dye.
    const above = 2 * guessedJointM2KPerW.medium + 0.1e-3 / 0.18;
    const through = 6e-3 / 1.4 + 0.025e-3 / 0.2;
    expect((back! - dye!) / (platenC - back!)).toBeCloseTo(through / above, 2);
  });

  it('the dye’s place waits for the heat to come through', () => {
    const half = (faceDown: boolean): number =>
      reachesAt(runHeat(flatPressRun({ ...request, faceDown }, { dwellSeconds: 600 })), 'dye', 112, 'press')!;
    // Half-way up; a slab of 6 mm passes heat on in the order of L²/2α = 27 s (α = 1.4/(2500·840) m²/s).
    expect(half(true) - half(false)).toBeGreaterThan(15);
  });

  it('keeps every joule', () => {
    const run = flatPressRun(
      { ...request, faceDown: true },
      { prePressSeconds: 10, pauseSeconds: 5, dwellSeconds: 200, openSeconds: 5, coolSeconds: 300 },
    );
    expect(runHeat(run).energy.closure).toBeLessThan(1e-6);
  });
});
