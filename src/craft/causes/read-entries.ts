import { heatCautions } from '#craft/heat';
import { type Fields, fieldsOf, numberIn } from './fields.js';
import { membersOf } from './merge.js';
import { type Placed, wrong } from './placed.js';
import {
  areas,
  type Band,
  type Basis,
  type Cause,
  type Choice,
  type Cost,
  type Finding,
  type Link,
  type Question,
  type Remedy,
} from './types.js';

const bases: readonly Basis[] = ['common practice', 'published', 'memory'];
/** What a question costs where nothing is said: a quarter of a minute. */
const aLook: Cost = { minutes: 0.25, money: 0, blanks: 0 };

export function readFinding(placed: Placed, id: string): Finding {
  const fields = fieldsOf(placed, `finding “${id}”`);
  const unit = fields.text('unit', '') || null;
  const threshold = fields.numberOrNull('threshold', 1e-6, 1e6);
  const typical = fields.numberOrNull('typical', 1e-6, 1e6);
  if ((unit === null) !== (threshold === null) || (unit === null) !== (typical === null)) {
    throw wrong(
      placed,
      `finding “${id}” needs unit, threshold and typical, or none of them`,
      'Add what is missing.',
    );
  }
  if (threshold !== null && typical! <= threshold) {
    throw wrong(
      placed,
      `finding “${id}” is usually weaker than its threshold`,
      'Raise typical or lower threshold.',
    );
  }
  const finding: Finding = {
    id,
    name: fields.text('name'),
    looks: sentence(fields, 'looks'),
    unit,
    threshold,
    typical,
    spread: fields.number('spread', 0.1, 2, 0.6),
    leak: fields.number('leak', 0.0005, 0.2, 0.01),
    basis: fields.oneOf('basis', bases),
  };
  fields.done();
  return finding;
}

export function readQuestion(placed: Placed, id: string): Question {
  const fields = fieldsOf(placed, `question “${id}”`);
  const choices = fields.list('choices').map((choice): Choice => {
    const own = fieldsOf(choice, `a choice of “${id}”`);
    const read = { id: own.text('id'), text: own.text('text'), usual: own.number('usual', 0.001, 0.999) };
    own.done();
    return read;
  });
  const sum = choices.reduce((total, { usual }) => total + usual, 0);
  if (
    choices.length < 2 ||
    Math.abs(sum - 1) > 0.011 ||
    new Set(choices.map((c) => c.id)).size < choices.length
  ) {
    throw wrong(
      placed,
      `question “${id}” needs two or more different choices whose usual shares sum to 1`,
      `They sum to ${sum.toFixed(2)} now.`,
    );
  }
  const about = fields.text('about', '') || null;
  const kind = fields.oneOf('kind', ['question', 'setting', 'test'], 'question');
  const measured = fields.optional('measured');
  const question: Question = {
    id,
    kind,
    text: fields.text('text'),
    how: fields.text('how', ''),
    choices: choices.map((choice) => ({ ...choice, usual: choice.usual / sum })),
    about,
    measured: measured === undefined ? null : readMeasured(measured, id, choices),
    cost: readCost(fields, kind === 'test' ? undefined : aLook),
    cautions: readCautions(fields),
    basis: fields.oneOf('basis', bases),
  };
  fields.done();
  return question;
}

export function readCause(placed: Placed, id: string): Cause {
  const fields = fieldsOf(placed, `cause “${id}”`);
  const findings: Record<string, Link> = {};
  for (const [finding, link] of fields.members('findings'))
    findings[finding] = readLink(link, `${id} → ${finding}`);
  const answers: Record<string, Record<string, number>> = {};
  for (const [question, factors] of fields.members('answers')) {
    const own: Record<string, number> = {};
    for (const [choice, factor] of membersOf(factors, `the answers of “${id}” to “${question}”`)) {
      own[choice] = numberIn(factor, 0, 1000, `the factor of “${choice}”`);
    }
    answers[question] = own;
  }
  const cause: Cause = {
    id,
    name: fields.text('name'),
    area: fields.oneOf('area', areas),
    reason: sentence(fields, 'reason'),
    per1000: fields.number('per1000', 0.01, 500),
    findings,
    answers,
    cautions: readCautions(fields),
    basis: fields.oneOf('basis', bases),
  };
  if (Object.keys(findings).length === 0) {
    throw wrong(placed, `cause “${id}” shows in nothing`, 'Give it at least one finding.');
  }
  fields.done();
  return cause;
}

export function readRemedy(placed: Placed, id: string): Remedy {
  const fields = fieldsOf(placed, `remedy “${id}”`);
  const cures: Record<string, number> = {};
  for (const [cause, chance] of fields.members('cures')) {
    cures[cause] = numberIn(chance, 0.01, 0.99, `the chance of “${id}” to cure “${cause}”`);
  }
  if (Object.keys(cures).length === 0)
    throw wrong(placed, `remedy “${id}” cures nothing`, 'Say what it cures.');
  const remedy: Remedy = {
    id,
    name: fields.text('name'),
    how: sentence(fields, 'how'),
    cost: readCost(fields),
    cures,
    cautions: readCautions(fields),
    basis: fields.oneOf('basis', bases),
  };
  fields.done();
  return remedy;
}

/** A bare number is the chance; with a strength of its own it is an object. Certainty is not to be had: 0.99 at most. */
function readLink(placed: Placed, what: string): Link {
  if (typeof placed.value === 'number') return { chance: numberIn(placed, 0.01, 0.99, what), typical: null };
  const fields = fieldsOf(placed, what);
  const link = {
    chance: fields.number('chance', 0.01, 0.99),
    typical: fields.numberOrNull('typical', 1e-6, 1e6),
  };
  fields.done();
  return link;
}

function readMeasured(placed: Placed, id: string, choices: readonly Choice[]): Question['measured'] {
  const fields = fieldsOf(placed, `what measures “${id}”`);
  const bands = fields.list('bands').map((band): Band => {
    const own = fieldsOf(band, `a band of “${id}”`);
    const read = {
      below: own.numberOrNull('below', -1e6, 1e6),
      choice: own.oneOf(
        'choice',
        choices.map((choice) => choice.id),
      ),
    };
    own.done();
    return read;
  });
  const rises = bands.every(({ below }, i) => {
    if (i === bands.length - 1) return below === null;
    const before = bands[i - 1]?.below ?? Number.NEGATIVE_INFINITY;
    return below !== null && below > before;
  });
  if (bands.length === 0 || !rises) {
    throw wrong(
      placed,
      `the bands of “${id}” must rise and end without a bound`,
      'Leave "below" out of the last one.',
    );
  }
  const measured = { name: fields.text('name'), unit: fields.text('unit'), bands };
  fields.done();
  return measured;
}

function readCost(fields: Fields, fallback?: Cost): Cost {
  const placed = fields.optional('cost');
  if (placed === undefined && fallback !== undefined) return fallback;
  if (placed === undefined) {
    throw wrong(fields.at, 'There is no cost', 'Write "cost": {"minutes": …, "money": …, "blanks": …}.');
  }
  const own = fieldsOf(placed, 'what it costs');
  const cost = {
    minutes: own.number('minutes', 0, 10000, 0),
    money: own.number('money', 0, 100000, 0),
    blanks: own.number('blanks', 0, 100, 0),
  };
  own.done();
  return cost;
}

function readCautions(fields: Fields): string[] {
  return fields.list('cautions').map((caution) => {
    const found = heatCautions.find(({ id }) => id === caution.value);
    if (found === undefined) {
      throw wrong(
        caution,
        'There is no such caution',
        `Use: ${heatCautions.map(({ id }) => id).join(', ')}.`,
      );
    }
    return found.id;
  });
}

function sentence(fields: Fields, name: string): string {
  const text = fields.text(name);
  if (!/[.!?]$/.test(text)) {
    throw wrong(fields.optional(name)!, `“${name}” must be a whole sentence`, 'End it with a full stop.');
  }
  return text;
}
