import { describe, expect, it } from 'vitest';
import { noisyOr, strongestShows } from './noisy-or.js';
import { chanceInWorld, logPriorOfTables, type TableNode } from './tables.js';
import { trigamma } from './trigamma.js';
import { valueOfTest } from './value-of-test.js';
import { marginals, predicted, type World, weigh, worldsOf } from './worlds.js';

/** Chance and log of what is known for sure about one variable. */
const told = (worlds: readonly World[], variable: number, yes: boolean) =>
  Float64Array.from(worlds, (world) => (world.includes(variable) === yes ? 0 : Number.NEGATIVE_INFINITY));

describe('Asia (Lauritzen & Spiegelhalter, J. R. Stat. Soc. B 50(2), 1988)', () => {
  // Tables as published; posteriors recomputed exactly from them (see the list in each row).
  const [A, S, T, L, B] = [0, 1, 2, 3, 4];
  const nodes: TableNode[] = [
    { parents: [], chanceOfYes: [0.01] },
    { parents: [], chanceOfYes: [0.5] },
    { parents: [A], chanceOfYes: [0.01, 0.05] },
    { parents: [S], chanceOfYes: [0.01, 0.1] },
    { parents: [S], chanceOfYes: [0.3, 0.6] },
  ];
  const xRay: TableNode = { parents: [T, L], chanceOfYes: [0.05, 0.98, 0.98, 0.98] };
  // Parents T, L, B; "either" is T or L.
  const breathless: TableNode = { parents: [T, L, B], chanceOfYes: [0.1, 0.8, 0.7, 0.9, 0.7, 0.9, 0.7, 0.9] };
  const worlds = worldsOf(5, 5);
  const prior = logPriorOfTables(nodes, worlds);
  const seen = (node: TableNode, yes: boolean) =>
    Float64Array.from(worlds, (world) => {
      const chance = chanceInWorld(node, world);
      return Math.log(yes ? chance : 1 - chance);
    });
  const lines = {
    A: told(worlds, A, true),
    D: seen(breathless, true),
    X: seen(xRay, true),
    notX: seen(xRay, false),
  };

  it.each([
    ['nothing', [], [0.5, 0.0104, 0.055, 0.45], 0.11029, 0.43597],
    ['A, D', ['A', 'D'], [0.62592, 0.087751, 0.099525, 0.811402], 0.219539, null],
    ['A, D, X', ['A', 'D', 'X'], [0.702025, 0.391712, 0.444271, 0.628822], null, null],
    ['A, D, not X', ['A', 'D', 'notX'], [0.604512, 0.002249, 0.00255, 0.862761], null, null],
    ['X', ['X'], [0.687754, 0.092411, 0.488711, 0.506326], null, 0.640766],
  ] as const)('given %s', (_, given, [s, t, l, b], x, d) => {
    const after = weigh(
      worlds,
      prior,
      given.map((name) => lines[name]),
    );
    const chances = marginals(after, 5);
    for (const [variable, chance] of [
      [S, s],
      [T, t],
      [L, l],
      [B, b],
    ] as const) {
      expect(Math.abs(chances[variable]! - chance)).toBeLessThan(6e-7);
    }
    // Published to five or six decimals.
    if (x !== null)
      expect(Math.abs(predicted(after, (world) => chanceInWorld(xRay, world)) - x)).toBeLessThan(6e-6);
    if (d !== null) {
      expect(Math.abs(predicted(after, (world) => chanceInWorld(breathless, world)) - d)).toBeLessThan(6e-6);
    }
  });

  it('holds the chance of the evidence too: P(X) = 0.11029', () => {
    expect(Math.exp(weigh(worlds, prior, [lines.X]).logEvidence)).toBeCloseTo(0.11029, 5);
  });
});

describe('noisy-OR (the fever table of Russell & Norvig, Artificial Intelligence, 14.3)', () => {
  const cold = 0.4;
  const flu = 0.8;
  const malaria = 0.9;
  it.each([
    [[], 0],
    [[malaria], 0.9],
    [[flu], 0.8],
    [[flu, malaria], 0.98],
    [[cold], 0.4],
    [[cold, malaria], 0.94],
    [[cold, flu], 0.88],
    [[cold, flu, malaria], 0.988],
  ])('%j → %f', (present, fever) => {
    expect(noisyOr(0, present)).toBeCloseTo(fever, 12);
    // The graded form is the same where "there" is certain and all are equally strong.
    const ways = present.map((chance) => ({ chance, typical: 1, density: 1 }));
    expect(strongestShows(ways, 0)).toBeCloseTo(fever, 12);
  });
});

describe('the oil wildcatter (Raiffa, Decision Analysis, 1968)', () => {
  const chances = [0.5, 0.3, 0.2];
  const payoffs = [-70, 50, 200];
  const bestAct = (now: Float64Array) =>
    Math.max(
      0,
      now.reduce((sum, chance, i) => sum + chance * payoffs[i]!, 0),
    );
  // Answers none, open, closed for dry, wet, soaking.
  const sounding = [
    [0.6, 0.3, 0.1],
    [0.3, 0.4, 0.4],
    [0.1, 0.3, 0.5],
  ];
  const value = valueOfTest(chances, sounding, bestAct);

  it('is worth 20 without the test and 32.5 with it', () => {
    expect(value.without).toBeCloseTo(20, 10);
    expect(value.with).toBeCloseTo(32.5, 10);
    expect(value.gain).toBeCloseTo(12.5, 10);
  });
  it('would be worth 35 more with the truth, and 0.1604 bit are told', () => {
    expect(value.gainOfTruth).toBeCloseTo(35, 10);
    expect(value.bits).toBeCloseTo(0.1604, 4);
    expect(value.answers).toEqual([0.41, 0.35, 0.24].map((chance) => expect.closeTo(chance, 12)));
  });
});

it('ψ′(1) = π²/6 and ψ′(½) = π²/2 (Abramowitz & Stegun 6.4.2, 6.4.4)', () => {
  expect(trigamma(1)).toBeCloseTo(Math.PI ** 2 / 6, 7);
  expect(trigamma(0.5)).toBeCloseTo(Math.PI ** 2 / 2, 7);
});
