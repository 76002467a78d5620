import { Problem } from '#craft/problem';
import type { Answer, Cause, Question } from './types.js';

/**
 * Chance of each choice when these causes are present: the usual shares times each cause's odds factors, made to sum
 * to 1 again. So a factor of 4 makes a choice four times as likely against the others.
 * @returns in the order of `question.choices`
 */
export function choiceChances(question: Question, present: readonly Cause[]): number[] {
  const weights = question.choices.map((choice) => {
    let weight = choice.usual;
    for (const cause of present) weight *= cause.answers[question.id]?.[choice.id] ?? 1;
    return weight;
  });
  const sum = weights.reduce((a, b) => a + b, 0);
  // Two causes that leave no choice in common cannot be together: every answer speaks against that pair.
  return sum > 0 ? weights.map((weight) => weight / sum) : weights.map(() => 0);
}

/** How likely each choice is, from whatever form the answer has. @throws Problem `request.invalid` */
export function choiceWeights(question: Question, answer: Answer): number[] {
  if (typeof answer === 'string') {
    const at = question.choices.findIndex((choice) => choice.id === answer);
    if (at < 0) throw wrongAnswer(question, `“${answer.slice(0, 40)}” is not one of the answers`);
    return question.choices.map((_, i) => (i === at ? 1 : 0));
  }
  if (typeof answer === 'number') {
    const { measured } = question;
    if (measured === null || !Number.isFinite(answer))
      throw wrongAnswer(question, 'A number does not answer this');
    const band = measured.bands.find(({ below }) => below === null || answer < below)!;
    return choiceWeights(question, band.choice);
  }
  const weights = question.choices.map((choice) => answer[choice.id] ?? 0);
  const unknown = Object.keys(answer).find((id) => !question.choices.some((choice) => choice.id === id));
  if (unknown !== undefined)
    throw wrongAnswer(question, `“${unknown.slice(0, 40)}” is not one of the answers`);
  const sum = weights.reduce((a, b) => a + b, 0);
  if (!weights.every((weight) => weight >= 0) || !(Math.abs(sum - 1) < 1e-6)) {
    throw wrongAnswer(question, 'The chances of the answers must be 0 or more and sum to 1');
  }
  return weights;
}

function wrongAnswer(question: Question, what: string): Problem {
  return new Problem('request.invalid', `${what} (“${question.text}”).`, {
    remedy: `Answer with one of: ${question.choices.map((choice) => choice.id).join(', ')}.`,
    where: question.id,
  });
}
