import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { causeModel, findCauses, learnPriors, learnUsual, readCauseBook, withPriors } from './index.js';

const folder = 'data/causes';
const book = readCauseBook(
  readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .map((fileName) => ({ fileName, text: readFileSync(`${folder}/${fileName}`, 'utf8') })),
);
const of = (id: string, weight = 1) => ({ causes: { [id]: 1 }, weight });

describe('priors of a shop', () => {
  it('are the book’s where nothing was recorded', () => {
    for (const prior of learnPriors(book, [])) expect(prior.per1000).toBeCloseTo(prior.bookPer1000, 9);
  });

  it('move as a beta with 60 cases of the book: (0.03·60 + 20)/(60 + 40)', () => {
    const outcomes = [...Array(20).fill(of('nozzles-blocked')), ...Array(20).fill(of('lint-on-blank'))];
    const nozzles = learnPriors(book, outcomes).find(({ causeId }) => causeId === 'nozzles-blocked')!;
    expect(nozzles.per1000).toBeCloseTo((1000 * ((nozzles.bookPer1000 / 1000) * 60 + 20)) / 100, 9);
    expect(nozzles.cases).toBe(20);
    expect(nozzles.lowPer1000).toBeLessThan(nozzles.per1000);
    expect(nozzles.highPer1000).toBeGreaterThan(nozzles.per1000);
  });

  it('count a supposed cause for less, and come back when the outcomes are taken away', () => {
    const sure = learnPriors(book, [of('weak-mains')]).find(({ causeId }) => causeId === 'weak-mains')!;
    const perhaps = learnPriors(book, [of('weak-mains', 0.3)]).find(
      ({ causeId }) => causeId === 'weak-mains',
    )!;
    expect(perhaps.per1000).toBeLessThan(sure.per1000);
    expect(perhaps.per1000).toBeGreaterThan(perhaps.bookPer1000);
    expect(withPriors(book, learnPriors(book, [])).causes.map(({ per1000 }) => per1000.toFixed(9))).toEqual(
      book.causes.map(({ per1000 }) => per1000.toFixed(9)),
    );
  });

  it('change what is believed of the next piece', () => {
    const facts = { findings: [{ id: 'faded-overall', seen: true }], answers: {}, tried: [] };
    const before = findCauses(causeModel(book), facts).ranked.find(
      ({ causeId }) => causeId === 'weak-mains',
    )!;
    const own = withPriors(book, learnPriors(book, Array(15).fill(of('weak-mains'))));
    const after = findCauses(causeModel(own), facts).ranked.find(({ causeId }) => causeId === 'weak-mains')!;
    expect(after.chance).toBeGreaterThan(3 * before.chance);
  });

  it('refuse what cannot be', () => {
    expect(() => learnPriors(book, [{ causes: { 'no-such': 1 }, weight: 1 }])).toThrow(/no-such/);
    expect(() => learnPriors(book, [{ causes: { 'weak-mains': 1.5 }, weight: 1 }])).toThrow(/outside/);
  });
});

it('usual answers of a shop are a Dirichlet with 20 runs of the book', () => {
  const humidity = learnUsual(book, { humidity: { damp: 60 } }).questions.find(
    ({ id }) => id === 'humidity',
  )!;
  expect(humidity.choices.map(({ usual }) => usual)).toEqual(
    [(0.2 * 20) / 80, (0.58 * 20) / 80, (0.22 * 20 + 60) / 80].map((value) => expect.closeTo(value, 9)),
  );
});
