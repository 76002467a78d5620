import type { LadderPlanFacts, PressStepFacts, Recipe, TestSheetOrder } from '#contract';
import { safetyBoundC } from '#craft/heat';
import type { FactorKind, LadderRequest } from '#craft/presswindow';

export type LadderOrder = Extract<TestSheetOrder, { kind: 'ladder' }>;
type Range = [low: number, high: number];

/**
 * How far a ladder goes from the recipe it starts at where nobody gave the maker's limits. Common practice, from memory:
 * blanks' leaflets differ among themselves by about so much.
 */
const usual = { coolerK: 15, hotterK: 10, shortest: 0.5, longest: 1.8 } as const;
/** What the contract takes for a time, seconds. */
const secondsBounds = [1, 1800] as const;
const leastPlatenC = 100;

export interface LadderRanges {
  readonly start: PressStepFacts;
  readonly limits: LadderPlanFacts['limits'];
  readonly factors: LadderRequest['factors'];
  /** What the person should know of where they come from. */
  readonly remarks: readonly string[];
}

/** Start, limits and the ranges of what varies, with all that the order leaves out. */
export function ladderRanges(order: LadderOrder, recipe: Recipe): LadderRanges {
  const start = order.start ?? { platenC: recipe.platenC, dwellSeconds: recipe.dwellSeconds };
  const asked = (kind: FactorKind) => order.factors.find((factor) => factor.kind === kind);
  const given = order.limits;
  const usualC = usualPlatenC(start.platenC);
  const usualSeconds = usualDwell(start.dwellSeconds);
  const pressure = given?.pressureBar ?? wholeRange(asked('pressure'));
  const limits: LadderPlanFacts['limits'] = {
    platenC: given?.platenC ?? reaching(usualC, asked('temperature')),
    dwellSeconds: given?.dwellSeconds ?? reaching(usualSeconds, asked('time')),
    ...(pressure === undefined ? {} : { pressureBar: pressure }),
  };
  const factors = order.factors.map(({ kind, low, high }) => {
    const bounds = { temperature: limits.platenC, time: limits.dwellSeconds, pressure: limits.pressureBar }[
      kind
    ];
    // Left without bounds, planning says what is wanting.
    return bounds === undefined ? { kind } : { kind, range: [low ?? bounds[0], high ?? bounds[1]] as const };
  });
  const remarks =
    given === undefined
      ? usualRemarks(order, {
          temperature: [usualC, limits.platenC],
          time: [usualSeconds, limits.dwellSeconds],
        })
      : [];
  return { start, limits, factors, remarks };
}

const usualPlatenC = (platenC: number): Range => [
  Math.max(leastPlatenC, Math.min(platenC, safetyBoundC) - usual.coolerK),
  Math.min(safetyBoundC, platenC + usual.hotterK),
];
const usualDwell = (seconds: number): Range => [
  Math.max(secondsBounds[0], Math.round(usual.shortest * seconds)),
  Math.min(secondsBounds[1], Math.round(usual.longest * seconds)),
];

interface Asked {
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

const wholeRange = (asked: Asked | undefined): Range | undefined =>
  asked?.low !== undefined && asked.high !== undefined ? [asked.low, asked.high] : undefined;

/** A person who names a range knows the blank better than a usual range does; the safety bound is held all the same. */
function reaching([low, high]: Range, asked: Asked | undefined): Range {
  return [Math.min(low, asked?.low ?? low), Math.max(high, asked?.high ?? high)];
}

const units = { temperature: '°C', time: 's' } as const;

function usualRemarks(
  { factors }: LadderOrder,
  ranges: Readonly<Record<keyof typeof units, readonly [usual: Range, taken: Range]>>,
): string[] {
  const varied = (['time', 'temperature'] as const).filter((kind) =>
    factors.some((factor) => factor.kind === kind),
  );
  if (varied.length === 0) return ['Nobody gave the blank maker’s limits: look them up, they come first.'];
  const words = varied
    .map((kind) => `${ranges[kind][0][0]} to ${ranges[kind][0][1]} ${units[kind]}`)
    .join(' and ');
  const isBeyond = varied.some((kind) => ranges[kind].map(String)[0] !== ranges[kind].map(String)[1]);
  if (isBeyond)
    return [
      `You ask for more than the usual range round the recipe (${words}): look up the blank maker’s limits, they come first.`,
    ];
  const isOwn = varied.every((kind) => wholeRange(factors.find((factor) => factor.kind === kind)));
  return [
    isOwn
      ? `Your range lies within a usual one round the recipe (${words}): the blank maker’s limits come first.`
      : `The range is a usual one round the recipe (${words}): the blank maker’s limits come first.`,
  ];
}
