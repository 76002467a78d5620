import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { causeModel, costOf, findCauses, readCauseBook, usualRates } from './index.js';
import { type DrawnCase, disturb, drawCase, factsAtFirst } from './testing/draw-case.js';
import { followAdvice, followList } from './testing/run-session.js';

/** CAUSE_CASES=400 npx vitest run src/craft/causes/cases prints the same tables from more cases. */
const cases = Number(process.env.CAUSE_CASES ?? 0);

const folder = 'data/causes';
const book = readCauseBook(
  readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .map((fileName) => ({ fileName, text: readFileSync(`${folder}/${fileName}`, 'utf8') })),
);
const model = causeModel(book);

interface Belief {
  readonly causeId: string;
  readonly chance: number;
}

function score(pairs: readonly { drawn: DrawnCase; ranked: readonly Belief[] }[]) {
  const n = pairs.length;
  let top = 0;
  let three = 0;
  let brier = 0;
  let over = 0;
  let variance = 0;
  for (const { drawn, ranked } of pairs) {
    const isTrue = (belief: Belief) => (drawn.causeIds.includes(belief.causeId) ? 1 : 0);
    const first = isTrue(ranked[0]!);
    top += first;
    three += ranked.slice(0, 3).some(isTrue) ? 1 : 0;
    brier += ranked.reduce((sum, belief) => sum + (belief.chance - isTrue(belief)) ** 2, 0);
    const p = ranked[0]!.chance;
    over += (first - p) * (1 - 2 * p);
    variance += (1 - 2 * p) ** 2 * p * (1 - p);
  }
  return {
    cases: n,
    'top cause right': round(top / n),
    'in the top three': round(three / n),
    /** Summed over all causes; 0 is perfect. */
    brier: round(brier / n),
    /** Spiegelhalter 1986: standard normal if the top cause's chance is what it says. */
    'calibration z': round(over / Math.sqrt(variance)),
  };
}

/** Only where somebody asked for them. */
const show = (table: object): void => {
  if (cases > 0) console.table(table);
};

const round = (value: number) => Math.round(value * 1000) / 1000;

describe('cases drawn from the book, photo and run record known, one or two causes', () => {
  const count = cases || 120;
  function drawAndScore(seed: number, sd: number, knowsNothing = false) {
    const nothing = findCauses(model, { findings: [], answers: {}, tried: [] }).ranked;
    const random = createRandom(seed);
    const pairs = [];
    for (let k = 0; k < count; k += 1) {
      // The truth is another book, off in every number; each case by one of its own.
      const truth = sd === 0 ? model : causeModel(disturb(book, random, sd));
      const drawn = drawCase(truth, random);
      const ranked = knowsNothing ? nothing : findCauses(model, factsAtFirst(model, drawn)).ranked;
      pairs.push({ drawn, ranked });
    }
    return score(pairs);
  }

  it('chances are what they say (|z| < 3), and far better than knowing nothing', () => {
    const table = drawAndScore(101, 0);
    show({ 'as the book says': table, 'knowing nothing': drawAndScore(101, 0, true) });
    expect(Math.abs(table['calibration z'])).toBeLessThan(3);
    expect(table.brier).toBeLessThan(0.75 * drawAndScore(101, 0, true).brier);
    expect(table['in the top three']).toBeGreaterThan(0.7);
  });

  it('still rank well where every number of the book is off by half (ln sd 0.5)', () => {
    const table = drawAndScore(102, 0.5);
    show({ 'book off by half': table });
    expect(table['in the top three']).toBeGreaterThan(0.65);
    expect(table.brier).toBeLessThan(0.8 * drawAndScore(102, 0.5, true).brier);
  });
});

describe('cases followed to the cure', () => {
  const count = cases ? Math.round(cases / 2) : 16;
  const cures = (id: string) => book.remedies.filter((remedy) => remedy.cures[id] !== undefined);

  /** Remedies by chance of curing over cost, for given chances of the causes. */
  function inOrder(chances: ReadonlyMap<string, number>) {
    const merit = new Map(
      book.remedies.map((remedy) => {
        const chance = Object.entries(remedy.cures).reduce(
          (sum, [id, cure]) => sum + cure * (chances.get(id) ?? 0),
          0,
        );
        return [remedy.id, chance / costOf(remedy.cost, usualRates)] as const;
      }),
    );
    return [...book.remedies].sort((a, b) => merit.get(b.id)! - merit.get(a.id)!);
  }

  /** What a printed table of faults does: the likeliest remedies for the one finding that stands out most. */
  function faultTable(drawn: DrawnCase) {
    const standsOut = (found: DrawnCase['findings'][number]) => {
      if ('seen' in found) return found.seen ? 3 : 0;
      return found.strength / book.findings.find(({ id }) => id === found.id)!.threshold!;
    };
    const [most] = [...drawn.findings].sort((a, b) => standsOut(b) - standsOut(a));
    const { ranked } = findCauses(model, {
      findings: [{ id: most!.id, seen: true }],
      answers: {},
      tried: [],
    });
    return inOrder(new Map(ranked.map(({ causeId, chance }) => [causeId, chance])));
  }

  it('cost less by advice than by a fixed checklist or a table of faults', { timeout: 3_600_000 }, () => {
    const random = createRandom(103);
    const checklist = inOrder(new Map(book.causes.map(({ id, per1000 }) => [id, per1000])));
    const sums = { advice: 0, 'remedies only': 0, 'table of faults': 0, 'fixed checklist': 0 };
    const cured = { ...sums };
    const pairs = [];
    let asked = 0;
    for (let k = 0; k < count; k += 1) {
      const drawn = drawCase(model, random);
      const advice = followAdvice(model, drawn, usualRates, createRandom(k));
      pairs.push({ drawn, ranked: advice.believed });
      asked += advice.asked;
      const ways = {
        advice,
        'remedies only': followAdvice(model, drawn, usualRates, createRandom(k), false),
        'table of faults': followList(faultTable(drawn), drawn, usualRates, createRandom(k)),
        'fixed checklist': followList(checklist, drawn, usualRates, createRandom(k)),
      };
      for (const [name, way] of Object.entries(ways) as [
        keyof typeof sums,
        { cost: number; isCured: boolean },
      ][]) {
        sums[name] += way.cost;
        cured[name] += way.isCured ? 1 : 0;
      }
    }
    show(
      Object.fromEntries(
        Object.entries(sums).map(([name, sum]) => [
          name,
          { 'mean cost': round(sum / count), cured: round(cured[name as keyof typeof cured] / count) },
        ]),
      ),
    );
    console.table({
      'before the first remedy': { ...score(pairs), 'asked or tested': round(asked / count) },
    });
    expect(sums.advice).toBeLessThan(sums['fixed checklist']);
    expect(sums.advice).toBeLessThan(sums['table of faults']);
    if (count < 100) return;
    const table = score(pairs);
    expect(table['top cause right']).toBeGreaterThan(0.7);
    expect(table['in the top three']).toBeGreaterThan(0.9);
    expect(sums.advice).toBeLessThan(sums['remedies only']);
  });

  it('every cause of the book can be cured by something that costs less than calling for help', () => {
    for (const { id } of book.causes) {
      if (id === 'head-worn') continue;
      expect(Math.min(...cures(id).map(({ cost }) => costOf(cost, usualRates))), id).toBeLessThan(
        usualRates.giveUp,
      );
    }
  });
});
