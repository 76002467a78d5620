/**
 * One number, straight lines between points (the ends hold), or a function of the seconds since the phase began.
 * A function's values cannot be held against the safety bound beforehand: it is for tests and examples.
 */
export type Course =
  | number
  | readonly { readonly atSeconds: number; readonly value: number }[]
  | ((seconds: number) => number);

export interface Material {
  readonly id: string;
  readonly name: string;
  readonly conductivityWPerMK: number;
  readonly densityKgPerM3: number;
  readonly heatCapacityJPerKgK: number;
  /** Of its usual surface, 0..1. */
  readonly emissivity: number;
  readonly source: string;
  /** published: read in the source named · memory: usual handbook figures, not looked up · guess: no source at all. */
  readonly basis: 'published' | 'memory' | 'guess';
}

/** Layers are listed from the upper (or outer) face inwards. */
export interface HeatLayer {
  readonly id: string;
  readonly material: Material;
  readonly thicknessMm: number;
  readonly startC: number;
  /** Resistance of the joint between this layer's upper face and whatever lies on it, m²K/W. Default 0. */
  readonly contactM2KPerW?: number;
  /** Joints of one name are one unknown when contacts are sampled or fitted. Default: the layer's id. */
  readonly joint?: string;
  /** One temperature for the whole layer (thin shells: Biot number below about 0.1). */
  readonly lumped?: boolean;
  /** Cells across the layer; chosen from the thickness when absent. */
  readonly cells?: number;
  /** A pad or cover that stays with the press: it keeps its warmth from piece to piece. */
  readonly ofPress?: boolean;
}

/** Curved stacks are given by the outer radius of one layer; quantities per m² are per m² of that face. */
export type Geometry =
  | { readonly kind: 'plane' }
  | { readonly kind: 'cylinder' | 'sphere'; readonly radiusMm: number; readonly ofLayer: string };

/** A heated plate as one temperature, under proportional control with a limit. Figures per m² of the plate. */
export interface Platen {
  readonly setC: number;
  readonly startC: number;
  readonly heatCapacityJPerM2K: number;
  readonly maxWPerM2: number;
  /** Power falls from full to none over this many kelvin round the set temperature. */
  readonly bandK: number;
  /** Through its back and sides to the room, always. */
  readonly lossWPerM2K: number;
  /** Its bare face while the press is open. */
  readonly openFace: { readonly hWPerM2K: number; readonly emissivity: number };
  /** Area of the plate over area of the blank: the plate lends heat from beside the blank. Default 1. */
  readonly areaRatio?: number;
}

/** What a face of the stack meets during a phase. `contactM2KPerW` stands in for the joint's own (a gap, light pressure). */
export type Side =
  | { readonly kind: 'platen'; readonly contactM2KPerW?: number }
  | { readonly kind: 'fixed'; readonly celsius: Course; readonly contactM2KPerW?: number }
  | { readonly kind: 'flux'; readonly wPerM2: Course }
  | {
      /** Convection, and radiation where there is an emissivity. An oven is air at its own temperature. */
      readonly kind: 'air';
      readonly airC: Course;
      readonly hWPerM2K: number;
      readonly emissivity?: number;
      /** What the face radiates to. Default: the air's temperature. */
      readonly surroundingsC?: Course;
      /** An oven's air: it shares the error of a set temperature. */
      readonly heated?: boolean;
    }
  | { readonly kind: 'insulated' };

export interface Phase {
  readonly name: string;
  readonly seconds: number;
  readonly top: Side;
  readonly bottom: Side;
  /**
   * Ids of the layers that lie there now; default all. One that comes (back) starts at its `startC`, unless it is
   * `ofPress`: that keeps the temperature it had.
   */
  readonly layers?: readonly string[];
  /** A new piece: every layer that is not `ofPress` starts at its `startC` again. */
  readonly freshPiece?: boolean;
}

/** Where a temperature is followed: a layer, and how deep in it (0 its upper face, 1 its lower). */
export interface Probe {
  readonly name: string;
  readonly layer: string;
  readonly depth: number;
}

export interface HeatRun {
  readonly geometry: Geometry;
  readonly layers: readonly HeatLayer[];
  readonly topPlaten?: Platen;
  readonly bottomPlaten?: Platen;
  readonly roomC: number;
  readonly phases: readonly Phase[];
  readonly probes: readonly Probe[];
}

export interface HeatOptions {
  /** Error allowed in a step, K. Default 0.01. */
  readonly stepToleranceK?: number;
  /** Equal steps, so many in each phase, instead of steps by error. */
  readonly fixedSteps?: number;
  /** Cells are multiplied by this. Default 1. */
  readonly meshFactor?: number;
  /** No heated face may be set above this. Default `safetyBoundC`. */
  readonly boundC?: number;
  /** Times at which the whole stack's temperatures are kept. */
  readonly profilesAtSeconds?: readonly number[];
}

/** Joules per m² over the whole run. In = kept + out, to rounding; `closure` says how well. */
export interface EnergyAccount {
  /** Electric energy of the heaters. */
  readonly heatersJPerM2: number;
  /** From the platens to the room: backs, sides, and bare faces while open. */
  readonly platenLossJPerM2: number;
  /** Into the stack through its upper and lower face, from air, fixed temperatures or flux (not platens). */
  readonly topJPerM2: number;
  readonly bottomJPerM2: number;
  /** From the upper and lower platen into the stack. */
  readonly topPlatenToStackJPerM2: number;
  readonly bottomPlatenToStackJPerM2: number;
  /** Warmth that layers put down and taken away carried in, counted from 0 °C. */
  readonly carriedInJPerM2: number;
  /** What platens and the layers lying there have gained from first to last. */
  readonly storedJPerM2: number;
  /** All amounts that crossed, regardless of sign. */
  readonly throughputJPerM2: number;
  /** |in − out − stored| over the throughput. */
  readonly closure: number;
}

export interface PhaseSpan {
  readonly name: string;
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** Samples of the phase: from `first` to `last`, both included. */
  readonly first: number;
  readonly last: number;
  /** From platens, air or whatever faces the stack into it, and from the platens to the room. J per m². */
  readonly intoStackJPerM2: number;
  readonly platenLossJPerM2: number;
}

export interface StackProfile {
  readonly seconds: number;
  readonly layers: readonly {
    readonly id: string;
    /** From the upper face of the whole stack, absent layers counted. */
    readonly depthMm: readonly number[];
    readonly celsius: readonly number[];
  }[];
}

/** Samples at every step. A time stands twice where a phase ends and the next begins: faces may jump there. */
export interface HeatResult {
  readonly seconds: Float64Array;
  /** °C by probe name; NaN while the layer is not there. */
  readonly probes: Readonly<Record<string, Float64Array>>;
  readonly topPlatenC: Float64Array | null;
  readonly bottomPlatenC: Float64Array | null;
  /** Electric power of both heaters, W per m² of blank. */
  readonly heatersWPerM2: Float64Array;
  /** Into the stack from whatever faces it, above and below, W per m² of blank. */
  readonly intoStackWPerM2: Float64Array;
  readonly phases: readonly PhaseSpan[];
  readonly energy: EnergyAccount;
  readonly profiles: readonly StackProfile[];
}
