import type {
  Blank,
  FactorKindName,
  LadderPlanFacts,
  PressStepFacts,
  PrintSetup,
  TestSheetOrderInput,
} from '#contract';

export type Range = readonly [low: number | null, high: number | null];

/** What a person has chosen for a ladder so far; null: as the shop proposes. */
export interface LadderChoice {
  readonly blank: Blank | null;
  readonly setup: PrintSetup | null;
  readonly pressId: string | null;
  readonly coupons: number;
  readonly factors: readonly FactorKindName[];
  readonly ranges: Partial<Record<FactorKindName, Range>>;
  /** What stays as it is, true temperatures. */
  readonly start: PressStepFacts | null;
  /** What the blank's maker allows. */
  readonly limits: { readonly platenC: [number, number]; readonly dwellSeconds: [number, number] } | null;
}

/** The order to send; null while something is still to be chosen. */
export function ladderOrderOf(choice: LadderChoice): TestSheetOrderInput | null {
  const { blank, setup, pressId, coupons, factors, ranges, start, limits } = choice;
  if (!blank || !setup || factors.length === 0) return null;
  // Nobody but the person knows which pressures a blank bears.
  const pressure = ranges.pressure;
  if (factors.includes('pressure') && (pressure?.[0] == null || pressure[1] == null)) return null;
  return {
    kind: 'ladder',
    setupId: setup.id,
    blankId: blank.id,
    coupons,
    factors: factors.map((kind) => {
      const [low, high] = ranges[kind] ?? [null, null];
      return { kind, ...(low === null ? {} : { low }), ...(high === null ? {} : { high }) };
    }),
    ...(pressId ? { pressId } : {}),
    ...(start ? { start } : {}),
    ...(limits ? { limits } : {}),
  };
}

/** From the lowest to the highest that the plan would press, for what varies. */
export function plannedRange(plan: LadderPlanFacts, kind: FactorKindName): [number, number] | null {
  const values = plan.coupons.flatMap(({ step }) => {
    const value =
      kind === 'time' ? step.dwellSeconds : kind === 'temperature' ? step.platenC : step.pressureBar;
    return value === undefined ? [] : [value];
  });
  return values.length === 0 ? null : [Math.min(...values), Math.max(...values)];
}

export const couponBounds = { least: 4, most: 16, usual: 9 } as const;
