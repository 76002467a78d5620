import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { heatCautions } from '#craft/heat';
import { isProblem, type Problem } from '#craft/problem';
import { areas, causeModel, findCauses, readCauseBook } from './index.js';

const folder = 'data/causes';
const stock = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .sort()
  .map((fileName) => ({ fileName, text: readFileSync(`${folder}/${fileName}`, 'utf8') }));

function refusal(text: string, fileName = 'own.json'): Problem {
  try {
    readCauseBook([...stock, { fileName, text }]);
  } catch (thrown) {
    if (isProblem(thrown)) return thrown;
    throw thrown;
  }
  throw new Error('It was taken.');
}

describe('the stock book', () => {
  const book = readCauseBook(stock);

  it('spans the trade with 60 causes or more', () => {
    expect(book.causes.length).toBeGreaterThanOrEqual(60);
    for (const area of areas)
      expect(book.causes.filter((cause) => cause.area === area).length).toBeGreaterThan(4);
  });

  it('uses every finding, question and test it lists', () => {
    for (const { id } of book.findings)
      expect(book.causes.filter((cause) => cause.findings[id]).length, id).toBeGreaterThan(0);
    for (const { id } of book.questions)
      expect(book.causes.filter((cause) => cause.answers[id]).length, id).toBeGreaterThan(0);
  });

  it('keeps its shares near 1000 faulty pieces, some with two causes', () => {
    const sum = book.causes.reduce((total, { per1000 }) => total + per1000, 0);
    expect(sum).toBeGreaterThan(1000);
    expect(sum).toBeLessThan(1300);
  });

  it('warns wherever heat, solvent, glass or an oven is in what it tells to do', () => {
    const wants: [RegExp, string][] = [
      [/alcohol/i, 'solvent'],
      [/electrician/i, 'circuit'],
      [/start the time when its face/i, 'oven'],
      [/open press|while it is hot|open slowly|thermometer says/i, 'hot'],
    ];
    const known = heatCautions.map(({ id }) => id as string);
    for (const { id, name, how, cautions } of [
      ...book.remedies,
      ...book.questions.map((q) => ({ ...q, name: q.text })),
    ]) {
      for (const [words, caution] of wants) {
        if (words.test(`${name} ${how}`)) expect(cautions, id).toContain(caution);
      }
      for (const caution of cautions) expect(known).toContain(caution);
    }
  });

  // Common practice of the trade (no published source): what a person who knows it would name first or second.
  it.each([
    [
      'greenish, pale black on every piece and a short press',
      ['black-green', 'faded-overall'],
      { 'time-set': 'shorter', 'on-paper': 'no' },
      ['time-too-short'],
    ],
    [
      'brownish black, pressed long',
      ['black-brown', 'blur-all-round'],
      { 'time-set': 'longer' },
      ['time-too-long'],
    ],
    [
      'pale corners on a hard flat blank',
      ['faded-corners'],
      { material: 'ceramic-or-glass', 'press-kind': 'flat', 'on-paper': 'no' },
      ['pressure-too-low', 'platen-edges-cool', 'blank-bowed'],
    ],
    [
      'double image, press opened fast',
      ['double-image'],
      { opening: 'fast', 'held-by': 'nothing' },
      ['paper-moved'],
    ],
    ['curly marks on cloth', ['fibres'], { material: 'cloth', 'dust-care': 'no' }, ['lint-on-blank']],
    [
      'white lines after a month idle',
      ['white-lines'],
      { 'days-idle': 'long', 'on-paper': 'yes' },
      ['nozzles-blocked'],
    ],
    [
      'white lines in draft mode',
      ['white-lines', 'banding'],
      { 'print-quality': 'draft', 'on-paper': 'yes' },
      ['quality-too-low'],
    ],
    ['faded cotton', ['faded-overall'], { material: 'cloth', polyester: 'low' }, ['polyester-too-low']],
    [
      'faded bare mug',
      ['faded-overall'],
      { material: 'ceramic-or-glass', 'blank-made-for': 'unsure' },
      ['blank-uncoated'],
    ],
    [
      'blur and steam in damp air',
      ['blur-all-round', 'mottle'],
      { humidity: 'damp', steam: 'yes', 'on-paper': 'no' },
      ['paper-damp', 'blank-damp', 'room-damp'],
    ],
    ['backwards writing', ['reversed-image'], { 'mirrored-by': 'both' }, ['mirrored-twice']],
    [
      'one side soft and pale, always the same side of the press',
      ['faded-one-side', 'blur-one-side'],
      { 'pale-side': 'of-the-press', 'press-kind': 'flat' },
      ['pressure-uneven'],
    ],
  ])('%s', (_, findings, answers, expected) => {
    const seen = findings.map((id) => ({ id, seen: true }));
    const { ranked } = findCauses(causeModel(book), { findings: seen, answers, tried: [] });
    expect(expected).toContain(ranked[0]!.causeId);
  });
});

describe('a shop’s own file', () => {
  it('changes a field, a chance, adds and removes, without touching the rest', () => {
    const text = `{
      // a remark, and a trailing comma
      "causes": [
        { "id": "nozzles-blocked", "per1000": 90, "findings": { "streaks": 0.9, "colour-cast": null } },
        { "id": "cat-on-the-bench", "name": "cat hair", "area": "room", "reason": "The cat sleeps there.",
          "per1000": 40, "findings": { "fibres": 0.9 }, "basis": "memory" },
      ],
      "remedies": [
        { "id": "shut-the-cat-out", "name": "Shut the door", "how": "Keep the cat out of the room.",
          "cost": { "minutes": 1, "blanks": 1 }, "cures": { "cat-on-the-bench": 0.9 }, "basis": "memory" },
        { "id": "replace-head", "remove": true }
      ]
    }`;
    const before = readCauseBook(stock);
    const book = readCauseBook([...stock, { fileName: 'own.json', text }]);
    const nozzles = book.causes.find(({ id }) => id === 'nozzles-blocked')!;
    expect(nozzles.per1000).toBe(90);
    expect(nozzles.findings.streaks!.chance).toBe(0.9);
    expect(nozzles.findings['colour-cast']).toBeUndefined();
    expect(nozzles.findings['white-lines']).toEqual(
      before.causes.find(({ id }) => id === 'nozzles-blocked')!.findings['white-lines'],
    );
    expect(book.causes).toHaveLength(before.causes.length + 1);
    expect(book.remedies).toHaveLength(before.remedies.length);
  });

  it.each([
    ['{ "causes": [ {\n "id": "x",\n "name": "x" } ] }', 1, /no reason|no area/],
    ['{ "causes": [\n { "id": "nozzles-blocked",\n "per1000": -3 } ] }', 3, /number from/],
    ['{ "causes": [\n { "id": "nozzles-blocked", "findings": { "no-such": 0.5 } } ] }', 2, /no-such/],
    ['{ "causes": [\n { "id": "nozzles-blocked", "chanse": 1 } ] }', 2, /chanse/],
    ['{ "causes": [\n { "id": "nozzles-blocked",\n "findings": { "streaks": 1.2 } } ] }', 3, /streaks/],
    ['{ "causes": [\n { "id": "nozzles-blocked",\n "answers": { "humidity": { "wet": 2 } } } ] }', 2, /wet/],
    ['{ "remedies": [ { "id": "clean-head",\n\n "cautions": ["lava"] } ] }', 3, /caution/],
    [
      '{ "remedies": [ { "id": "clean-head", "remove": true },\n { "id": "soak-head", "remove": true },\n { "id": "replace-head", "remove": true } ] }',
      0,
      /nothing in the book cures/,
    ],
    ['{ "findings": [ { "id": "streaks",\n "threshold": 9 } ] }', 1, /weaker than its threshold/],
    [
      '{ "questions": [ { "id": "steam",\n "choices": [{"id":"a","text":"a","usual":0.5},{"id":"b","text":"b","usual":0.2}] } ] }',
      1,
      /sum/,
    ],
    ['{ "causes": [\n { "id": "a" }, \n\n oops ] }', 4, /not JSON/],
    ['{ "causes": 7 }', 1, /list/],
    ['{ "causes": [ 7 ] }', 1, /object/],
    ['{ "causes": [ { "id": "../etc" } ] }', 1, /id/],
    ['{ "pictures": [] }', 1, /pictures/],
    ['[]', 1, /object/],
    ['', 1, /not JSON/],
    ['{ "note": "a", "note": "b" }', 1, /twice/],
    [`${'['.repeat(200_000)}`, 1, /not JSON/],
    ['x'.repeat(2_000_001), 1, /too long/],
  ])('is refused with the line: %.60s', (text, line, words) => {
    const problem = refusal(text);
    expect(problem.code).toBe('causes.invalid');
    expect(problem.message).toMatch(words);
    if (line > 0) expect(problem.where).toBe(`own.json:${line}`);
    expect(problem.remedy.length).toBeGreaterThan(5);
  });
});

it('takes the examples of docs/causes.md as they stand', () => {
  const blocks = [...readFileSync('docs/causes.md', 'utf8').matchAll(/```json\n([\s\S]*?)```/g)];
  expect(blocks).toHaveLength(2);
  const files = blocks.map(([, text], i) => ({ fileName: `example-${i}.json`, text: text! }));
  const { causes } = readCauseBook([...stock, ...files]);
  expect(causes.find(({ id }) => id === 'nozzles-blocked')!.per1000).toBe(90);
  expect(causes.some(({ id }) => id === 'cat-on-the-bench')).toBe(true);
});

describe('facts that cannot be', () => {
  const model = causeModel(readCauseBook(stock));
  const none = { findings: [], answers: {}, tried: [] };
  it.each([
    { ...none, findings: [{ id: 'no-such', seen: true }] },
    { ...none, findings: [{ id: 'streaks', strength: Number.NaN, sd: 1 }] },
    { ...none, findings: [{ id: 'streaks', strength: 1, sd: -1 }] },
    { ...none, findings: [{ id: 'reversed-image', strength: 1, sd: 1 }] },
    {
      ...none,
      findings: [
        { id: 'streaks', seen: true },
        { id: 'streaks', seen: false },
      ],
    },
    { ...none, answers: { humidity: 'soaking' } },
    { ...none, answers: { humidity: { damp: 0.5 } } },
    { ...none, answers: { steam: 3 } },
    { ...none, answers: { constructor: 'yes' } },
    { ...none, tried: ['pray'] },
  ])('are refused: %j', (facts) => {
    expect(() => findCauses(model, facts)).toThrow(expect.objectContaining({ code: 'request.invalid' }));
  });

  it('does not claim a cause where nothing is known', () => {
    const { ranked, sentence } = findCauses(model, none);
    expect(ranked[0]!.chance).toBeLessThan(0.05);
    expect(sentence).toMatch(/Nothing is known/);
  });
});
