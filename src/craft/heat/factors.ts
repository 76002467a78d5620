import { raised } from './course.js';
import type { HeatLayer, HeatRun, Platen, Side } from './types.js';

/** What is not known exactly, as factors on a run's own figures. Absent: 1. */
export interface RunFactors {
  /** On the resistance of each joint, by `joint` (or the layer's id). */
  readonly contacts?: Readonly<Record<string, number>>;
  /** On conductivity and on ρc, by the material's id. */
  readonly conductivity?: Readonly<Record<string, number>>;
  readonly heatCapacity?: Readonly<Record<string, number>>;
  /** On the thickness of layers, by their id. */
  readonly thickness?: Readonly<Record<string, number>>;
  /** Added to the temperature of every platen, fixed face and oven, K. */
  readonly platenShiftK?: number;
}

export const jointOf = (layer: HeatLayer): string => layer.joint ?? layer.id;

export function withFactors(run: HeatRun, factors: RunFactors): HeatRun {
  const shift = factors.platenShiftK ?? 0;
  const layers = run.layers.map((layer): HeatLayer => {
    const { material } = layer;
    const contact = factors.contacts?.[jointOf(layer)];
    return {
      ...layer,
      thicknessMm: layer.thicknessMm * (factors.thickness?.[layer.id] ?? 1),
      ...(layer.contactM2KPerW === undefined || contact === undefined
        ? {}
        : { contactM2KPerW: layer.contactM2KPerW * contact }),
      material: {
        ...material,
        conductivityWPerMK: material.conductivityWPerMK * (factors.conductivity?.[material.id] ?? 1),
        heatCapacityJPerKgK: material.heatCapacityJPerKgK * (factors.heatCapacity?.[material.id] ?? 1),
      },
    };
  });
  return {
    ...run,
    layers,
    ...(run.topPlaten === undefined ? {} : { topPlaten: shifted(run.topPlaten, shift) }),
    ...(run.bottomPlaten === undefined ? {} : { bottomPlaten: shifted(run.bottomPlaten, shift) }),
    phases: run.phases.map((phase) => ({
      ...phase,
      top: sideShifted(phase.top, shift),
      bottom: sideShifted(phase.bottom, shift),
    })),
  };
}

function shifted(platen: Platen, by: number): Platen {
  return { ...platen, setC: platen.setC + by, startC: platen.startC + by };
}

function sideShifted(side: Side, by: number): Side {
  if (by === 0) return side;
  if (side.kind === 'fixed') return { ...side, celsius: raised(side.celsius, by) };
  if (side.kind !== 'air' || side.heated !== true) return side;
  const { surroundingsC } = side;
  return {
    ...side,
    airC: raised(side.airC, by),
    ...(surroundingsC === undefined ? {} : { surroundingsC: raised(surroundingsC, by) }),
  };
}
