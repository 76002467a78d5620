import { describe, expect, it } from 'vitest';
import { createRandom, type Random } from '#craft/numerics';
import { findCauses } from './find-causes.js';
import { causeModel } from './model.js';
import { measuredStrength, seenByEye } from './strength.js';
import type { CaseFacts, CauseBook, Finding } from './types.js';

/** A small book with random numbers. */
function randomBook(random: Random): CauseBook {
  const number = (low: number, high: number) => low + (high - low) * random.uniform();
  const findings = [0, 1, 2, 3].map(
    (f): Finding => ({
      id: `f${f}`,
      name: `f${f}`,
      looks: 'So.',
      unit: f < 2 ? 'mm' : null,
      threshold: f < 2 ? 0.5 : null,
      typical: f < 2 ? 2 : null,
      spread: 0.6,
      leak: number(0.01, 0.1),
      basis: 'memory',
    }),
  );
  const noCost = { minutes: 1, money: 0, blanks: 0 };
  const questions = [0, 1].map((q) => {
    const usual = number(0.2, 0.8);
    return {
      id: `q${q}`,
      kind: 'question' as const,
      text: '?',
      how: '',
      choices: [
        { id: 'yes', text: 'yes', usual },
        { id: 'no', text: 'no', usual: 1 - usual },
      ],
      about: null,
      measured: null,
      cost: noCost,
      cautions: [],
      basis: 'memory' as const,
    };
  });
  const causes = [0, 1, 2, 3, 4].map((c) => ({
    id: `c${c}`,
    name: `c${c}`,
    area: 'press' as const,
    reason: 'Because.',
    per1000: number(10, 200),
    findings: Object.fromEntries(
      findings
        .filter(() => random.uniform() < 0.6)
        .map(({ id, unit }) => [
          id,
          {
            chance: number(0.1, 0.95),
            typical: unit !== null && random.uniform() < 0.5 ? number(1, 6) : null,
          },
        ]),
    ),
    answers: random.uniform() < 0.5 ? {} : { q0: { yes: number(0, 9) }, q1: { no: number(0.1, 5) } },
    cautions: [],
    basis: 'memory' as const,
  }));
  const remedies = [
    {
      id: 'r',
      name: 'r',
      how: 'Do.',
      cost: noCost,
      cures: { c0: 0.7, c1: 0.9 },
      cautions: [],
      basis: 'memory' as const,
    },
  ];
  return { findings, questions, causes, remedies };
}

/** The same question answered by writing out every set of causes and every set of causes that fire. */
function enumerate(book: CauseBook, counts: readonly number[], facts: CaseFacts): number[] {
  const size = book.causes.length;
  const weights = new Array<number>(1 << size).fill(0);
  const bySize = counts.map(() => 0);
  const bits = (set: number) => book.causes.filter((_, i) => set & (1 << i));
  const share = (set: number) => bits(set).reduce((product, { per1000 }) => product * per1000, 1);
  for (let set = 0; set < 1 << size; set += 1) {
    const count = bits(set).length;
    if (count < counts.length) bySize[count]! += share(set);
  }
  for (let set = 0; set < 1 << size; set += 1) {
    const present = bits(set);
    if (present.length >= counts.length) continue;
    let weight = (counts[present.length]! * share(set)) / bySize[present.length]!;
    for (const found of facts.findings) {
      const finding = book.findings.find(({ id }) => id === found.id)!;
      const soft =
        'seen' in found ? seenByEye(found.seen) : measuredStrength(finding, found.strength, found.sd);
      const ways = [
        { chance: finding.leak, typical: finding.typical },
        ...present
          .filter((cause) => cause.findings[finding.id] !== undefined)
          .map((cause) => ({
            chance: cause.findings[finding.id]!.chance,
            typical: cause.findings[finding.id]!.typical ?? finding.typical,
          })),
      ];
      let sum = 0;
      for (let firing = 0; firing < 1 << ways.length; firing += 1) {
        let chance = 1;
        let strongest: number | null = null;
        ways.forEach((way, k) => {
          const fires = (firing & (1 << k)) !== 0;
          chance *= fires ? way.chance : 1 - way.chance;
          if (fires) strongest = Math.max(strongest ?? 0, way.typical ?? 1);
        });
        sum += chance * (firing === 0 ? soft.away : soft.there(strongest));
      }
      weight *= sum;
    }
    for (const [id, answer] of Object.entries(facts.answers)) {
      const question = book.questions.find((q) => q.id === id)!;
      const raw = question.choices.map((choice) =>
        present.reduce((product, cause) => product * (cause.answers[id]?.[choice.id] ?? 1), choice.usual),
      );
      weight *= raw[question.choices.findIndex((c) => c.id === answer)]! / raw.reduce((a, b) => a + b, 0);
    }
    for (const id of facts.tried) {
      const { cures } = book.remedies.find((r) => r.id === id)!;
      if (present.length > 0)
        weight *= 1 - present.reduce((product, cause) => product * (cures[cause.id] ?? 0), 1);
    }
    weights[set] = weight;
  }
  const total = weights.reduce((a, b) => a + b, 0);
  return book.causes.map(
    (_, i) => weights.reduce((sum, w, set) => sum + (set & (1 << i) ? w : 0), 0) / total,
  );
}

describe('chances of causes', () => {
  it.each([[[0.03, 0.82, 0.15]], [[0.2, 0.3, 0.2, 0.15, 0.1, 0.05]]])(
    'are those of full enumeration on random books, for counts %j',
    (counts) => {
      const random = createRandom(21);
      for (let k = 0; k < 25; k += 1) {
        const book = randomBook(random);
        const facts: CaseFacts = {
          findings: [
            { id: 'f0', strength: 4 * random.uniform(), sd: 0.3 },
            { id: 'f1', strength: 2 * random.uniform(), sd: 0.1 },
            { id: 'f2', seen: random.uniform() < 0.5 },
            { id: 'f3', seen: random.uniform() < 0.5 },
          ],
          answers: { q0: 'yes', q1: random.uniform() < 0.5 ? 'yes' : 'no' },
          tried: random.uniform() < 0.5 ? ['r'] : [],
        };
        const found = findCauses(causeModel(book, counts), facts);
        enumerate(book, counts, facts).forEach((chance, i) => {
          const ranked = found.ranked.find(({ causeId }) => causeId === `c${i}`)!;
          expect(ranked.chance).toBeCloseTo(chance, 10);
        });
      }
    },
  );

  it('change by what each piece of evidence is said to have moved', () => {
    const random = createRandom(4);
    const book = randomBook(random);
    const facts: CaseFacts = {
      findings: [
        { id: 'f0', strength: 3, sd: 0.3 },
        { id: 'f2', seen: true },
      ],
      answers: { q1: 'no' },
      tried: [],
    };
    const model = causeModel(book);
    const logOdds = (chance: number) => Math.log(chance / (1 - chance));
    const all = findCauses(model, facts).ranked;
    const without = findCauses(model, { ...facts, findings: facts.findings.slice(1) }).ranked;
    for (const cause of all) {
      const said = cause.because.find(({ id }) => id === 'f0')?.logOdds ?? 0;
      const left = without.find(({ causeId }) => causeId === cause.causeId)!;
      expect(Math.abs(said - (logOdds(cause.chance) - logOdds(left.chance)))).toBeLessThan(0.0501);
    }
    expect(all.some(({ because }) => because.length > 0)).toBe(true);
  });
});

describe('a measured strength', () => {
  it('weighs there against away as often as simulated pieces fall there', () => {
    // Pieces are made by hand here: log-normal strength plus noise, against noise alone; counted in a narrow bin.
    const finding = randomBook(createRandom(1)).findings[0]!;
    const random = createRandom(8);
    const scatter = Math.hypot(0.5 / 1.959964, 0.2);
    const draws = 400_000;
    for (const at of [0.3, 0.7, 1]) {
      const counts = { there: 0, away: 0 };
      for (let k = 0; k < draws; k += 1) {
        const noise = scatter * random.normal();
        if (Math.abs(Math.abs(noise) - at) < 0.05) counts.away += 1;
        const strength = 2 * Math.exp(0.6 * random.normal());
        if (Math.abs(Math.abs(strength + noise) - at) < 0.05) counts.there += 1;
      }
      const soft = measuredStrength(finding, at, 0.2);
      // The small share of misreadings mixes the two: undone here.
      const mixed = (a: number, b: number) => 0.98 * a + 0.02 * b;
      const expected = mixed(counts.there, counts.away) / mixed(counts.away, counts.there);
      expect(soft.there(null) / soft.away / expected).toBeGreaterThan(0.93);
      expect(soft.there(null) / soft.away / expected).toBeLessThan(1.07);
    }
  });

  it('never decides alone, however large', () => {
    const finding = randomBook(createRandom(1)).findings[0]!;
    for (const strength of [0, 50, 1e12]) {
      const soft = measuredStrength(finding, strength, 0.01);
      const ratio = soft.there(null) / soft.away;
      expect(ratio).toBeGreaterThan(1 / 50);
      expect(ratio).toBeLessThan(50);
    }
  });
});
