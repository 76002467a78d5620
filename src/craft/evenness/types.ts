import type { Triple } from '#craft/colour';

/** A figure with the range in which it lies in nine of ten cases. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** 0..1 across (left to right) and along (back to front), as one stands before the press. */
export interface Place {
  readonly across: number;
  readonly along: number;
}

/** How far one place is behind: ΔE00 paler, or kelvin cooler, than some reference that is the same for all places. */
export interface PlaceValue extends Place {
  readonly value: number;
  /** Standard deviation of its chance. */
  readonly sd: number;
}

/** What the ends of `along` are called: of a mug press's wrap laid flat not back and front but top and bottom. */
export interface Sides {
  readonly back: string;
  readonly front: string;
}

export type UnevennessUnit = 'K' | 'ΔE00';

/** One thing found on a map. */
export interface Found {
  /** tilt: one side against the other · rim: all edges · spot: one place · even: nothing beyond chance */
  readonly kind: 'tilt' | 'rim' | 'spot' | 'even';
  readonly words: string;
  /** What usually does it, and what to do: common practice. */
  readonly likely: string;
  /**
   * Tilt: the worse end behind the other; rim: edges behind the middle; spot: it behind its surroundings, below 0
   * where it is hotter or darker.
   */
  readonly strength: Estimate;
  /** Null where it is everywhere. */
  readonly at: Place | null;
}

export interface Field {
  readonly unit: UnevennessUnit;
  readonly widthMm: number;
  readonly depthMm: number;
  /** What a value above 0 is called beside one below; left out: paler and darker, cooler and hotter. */
  readonly called?: { readonly worse: string; readonly better: string } | undefined;
  /** Left out: back and front. */
  readonly sides?: Sides | undefined;
}

export interface Split {
  /** Strongest first; one 'even' when nothing is beyond chance. */
  readonly found: Found[];
  /** Tilt, rim and spots put together again, with the level, in the values' own terms. */
  smoothAt(across: number, along: number): number;
  /** Chance from place to place that the pattern leaves. */
  readonly residualSd: number;
  /** What so few places cannot tell, and which places stand alone. */
  readonly remarks: string[];
}

/** One cell of an evenness sheet, as it reads; the sheet's top is taken to lie at the press's back. */
export interface LabCell {
  readonly column: number;
  readonly row: number;
  /** CIELAB D50. */
  readonly lab: Triple;
  /** Of the cell's mean. */
  readonly sdLab: Triple;
  /** Over the bare ground, log₁₀. */
  readonly density: number;
  readonly isSound: boolean;
}

export interface EvennessMap {
  readonly columns: number;
  readonly rows: number;
  /** Row by row, from the best region, CIEDE2000; null where nothing could be read. */
  readonly deltaE00: (number | null)[];
  /** Row by row: density of the best region less the cell's. */
  readonly densityLess: (number | null)[];
  /** Row by row, all cells: tilt, rim and spots put together again, ΔE00 behind the best place. */
  readonly smooth: number[];
  readonly best: Place;
  readonly meanDeltaE00: number;
  readonly p95DeltaE00: number;
  readonly found: Found[];
  readonly sentences: string[];
}

/** What of a kept map is needed to compare it with another. */
export interface ComparableMap {
  readonly columns: number;
  readonly rows: number;
  readonly smooth: readonly number[];
  readonly found: readonly Found[];
  readonly meanDeltaE00: number;
}

/** Temperatures measured over a platen, as they are typed in. */
export interface PlatenReadings {
  readonly setC: number;
  readonly method: 'probe' | 'strips' | 'infra-red';
  /** Infra-red: what the instrument was set to. */
  readonly emissivitySet?: number | undefined;
  /** ± of the instrument as its maker states it, K. */
  readonly instrumentK?: number | undefined;
  readonly columns: number;
  readonly rows: number;
  /** Row by row, back row first, each in the middle of its field of the grid; null where none was taken. */
  readonly celsius: readonly (number | null)[];
}

export interface PlatenTruth {
  /** True temperature less what was set, over the whole platen. */
  readonly offsetK: Estimate;
  /** Hottest less coolest place of the map. */
  readonly spreadK: number;
  /** True temperatures row by row. */
  readonly map: { readonly columns: number; readonly rows: number; readonly celsius: number[] };
  readonly found: Found[];
  readonly sentences: string[];
}
