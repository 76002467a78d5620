import { describe, expect, it } from 'vitest';
import { doseSeconds } from './dose.js';
import { heatBand } from './heat-band.js';
import { materials } from './materials.js';
import { piecesInARow } from './pieces-in-a-row.js';
import { flatPressRun } from './press-stack.js';
import { runHeat } from './run-heat.js';

const press = flatPressRun(
  { blank: { material: materials['glazed-ceramic'], thicknessMm: 6 }, setC: 200, pressure: 'medium' },
  { dwellSeconds: 180, openSeconds: 20 },
);

describe('band of a run', () => {
  const band = heatBand({ run: press, probe: 'dye', seed: 11, reachesC: 170 });

  it('lies about the best guess, wide while heating, and is the same for the same seed', () => {
    const at = (seconds: number): number => band.seconds.findIndex((s) => s >= seconds);
    for (const seconds of [20, 60, 170]) {
      const i = at(seconds);
      expect(band.lowC[i]!).toBeLessThan(band.centralC[i]!);
      expect(band.highC[i]!).toBeGreaterThan(band.centralC[i]!);
    }
    expect(band.reaches!.earlySeconds!).toBeLessThan(band.reaches!.centralSeconds!);
    expect(heatBand({ run: press, probe: 'dye', seed: 11, reachesC: 170 })).toEqual(band);
  });

  it('with nothing unknown there is no band', () => {
    const spreads = { contactsLog: 0, conductivityLog: 0, heatCapacityLog: 0, platenK: 0 };
    const sure = heatBand({ run: press, probe: 'dye', seed: 1, samples: 3, spreads });
    sure.seconds.forEach((_, i) => {
      expect(Math.abs(sure.highC[i]! - sure.lowC[i]!)).toBeLessThan(1e-9);
      // Samples run on coarser steps, whose ends the answer joins with straight lines.
      expect(Math.abs(sure.highC[i]! - sure.centralC[i]!)).toBeLessThan(1.5);
    });
  });

  it('only the platen unknown: at rest the band is that of the platen, ±1.645 standard deviations', () => {
    const rest = {
      ...press,
      phases: [{ ...press.phases[0]!, seconds: 6000, bottom: { kind: 'insulated' } as const }],
    };
    const spreads = { contactsLog: 0, conductivityLog: 0, heatCapacityLog: 0, platenK: 4 };
    const last = heatBand({ run: rest, probe: 'back', seed: 2, samples: 400, spreads, points: 2 });
    // Quantiles of 400 normal deviates scatter by about 0.4 K.
    expect(Math.abs(last.highC[1]! - last.lowC[1]! - 2 * 1.645 * 4)).toBeLessThan(1.7);
  });
});

describe('pieces in a row', () => {
  it('the press sinks from piece to piece until what goes in comes back, and each gets less until then', () => {
    const row = runHeat(piecesInARow(press, 14));
    expect(row.energy.closure).toBeLessThan(1e-6);
    const doses = Array.from({ length: 14 }, (_, piece) => {
      const span = row.phases.find((phase) => phase.name === (piece === 0 ? 'press' : `press ${piece + 1}`))!;
      const [seconds, celsius] = [row.seconds, row.probes.dye!].map((all) =>
        all.subarray(span.first, span.last + 1),
      );
      return doseSeconds(
        { seconds: seconds!, celsius: celsius! },
        { activationKJPerMol: 90, referenceC: 200 },
      );
    });
    expect(doses.at(-1)!).toBeLessThan(doses[0]!);
    const steps = doses.slice(1).map((dose, i) => Math.abs(dose / doses[i]! - 1));
    expect(steps.at(-1)!).toBeLessThan(0.005);
    // In the rhythm, what a piece takes and the room takes is what the heaters give: the platen ends as it began.
    const endOf = (piece: number): number => row.topPlatenC![row.phases[2 * piece + 1]!.last]!;
    expect(Math.abs(endOf(13) - endOf(12))).toBeLessThan(0.1);
    expect(endOf(13)).toBeLessThan(199);
  });
});
