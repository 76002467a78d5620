import { type Entries, mergeFiles, type Section } from './merge.js';
import { type Placed, wrong } from './placed.js';
import { readCause, readFinding, readQuestion, readRemedy } from './read-entries.js';
import type { BookFile, CauseBook } from './types.js';

/**
 * The book of causes from its files, in the order given: the stock files first, then the shop's own.
 * @throws Problem `causes.invalid` that names file and line
 */
export function readCauseBook(files: readonly BookFile[]): CauseBook {
  const entries = mergeFiles(files);
  const book: CauseBook = {
    findings: [...entries.findings].map(([id, placed]) => readFinding(placed, id)),
    questions: [...entries.questions].map(([id, placed]) => readQuestion(placed, id)),
    causes: [...entries.causes].map(([id, placed]) => readCause(placed, id)),
    remedies: [...entries.remedies].map(([id, placed]) => readRemedy(placed, id)),
  };
  checkNames(book, entries);
  return book;
}

/** Every name that one entry uses of another is there. */
function checkNames(book: CauseBook, entries: Entries): void {
  const at = (section: Section, id: string): Placed => entries[section].get(id)!;
  const wants = (has: boolean, placed: Placed, user: string, used: string, kind: string): void => {
    if (!has)
      throw wrong(
        placed,
        `“${user}” names ${kind} “${used.slice(0, 64)}”, which is not in the book`,
        'Correct the name, or add the entry.',
      );
  };
  const findings = new Map(book.findings.map((finding) => [finding.id, finding]));
  const questions = new Map(book.questions.map((question) => [question.id, question]));
  for (const question of book.questions) {
    if (question.about !== null) {
      wants(
        findings.has(question.about),
        at('questions', question.id),
        question.id,
        question.about,
        'a finding',
      );
    }
  }
  for (const cause of book.causes) {
    const placed = at('causes', cause.id);
    for (const [id, link] of Object.entries(cause.findings)) {
      const finding = findings.get(id);
      wants(finding !== undefined, placed, cause.id, id, 'a finding');
      if (link.typical !== null && finding!.unit === null) {
        throw wrong(
          placed,
          `“${cause.id}” gives a strength to “${id}”, which has no unit`,
          'Give only the chance.',
        );
      }
    }
    for (const [id, factors] of Object.entries(cause.answers)) {
      const question = questions.get(id);
      wants(question !== undefined, placed, cause.id, id, 'a question');
      for (const choice of Object.keys(factors)) {
        const has = question!.choices.some((one) => one.id === choice);
        wants(has, placed, cause.id, `${id}: ${choice}`, 'an answer');
      }
      if (question!.choices.every((choice) => factors[choice.id] === 0)) {
        throw wrong(placed, `“${cause.id}” leaves no answer to “${id}”`, 'Let at least one be more than 0.');
      }
    }
    if (!book.remedies.some((remedy) => Object.hasOwn(remedy.cures, cause.id))) {
      throw wrong(placed, `nothing in the book cures “${cause.id}”`, 'Name it in the "cures" of a remedy.');
    }
  }
  const causes = new Set(book.causes.map(({ id }) => id));
  for (const remedy of book.remedies) {
    for (const id of Object.keys(remedy.cures)) {
      wants(causes.has(id), at('remedies', remedy.id), remedy.id, id, 'a cause');
    }
  }
  if (book.causes.length === 0)
    throw wrong({ fileName: 'The book', line: 1 }, 'It has no causes', 'Add its files.');
}
