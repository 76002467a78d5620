import {
  type BlackAnswer,
  blackQuestionSchema,
  type Ladder,
  type WindowCourses,
  type WindowFieldFacts,
} from '#contract';
import { fitOf, type LadderFit } from '#craft/presswindow';
import { isProblem, Problem } from '#craft/problem';
import { missing } from '#shop/store';
import { checked } from '#shop/validate';
import { inBenchThread } from './bench-threads.js';
import type { LadderQuestion } from './bench-work.js';
import { blackOf, practiceOnly } from './black-question.js';
import { questionOf } from './ladder-question.js';

/** Where ladders are looked up. */
interface LadderShelf {
  get(sheetId: string): Promise<Ladder>;
  list(about: { readonly blankId?: string | undefined }): Promise<Ladder[]>;
}

/** What ladders say when they are asked; nothing is changed by it. */
export class LadderAnswers {
  constructor(
    private readonly ladders: LadderShelf,
    private readonly isBlank: (blankId: string) => Promise<boolean>,
  ) {}

  /** Errors: record.missing; ladder.unusable when there is no window yet. */
  async field(sheetId: string): Promise<WindowFieldFacts> {
    return inBenchThread('field', await this.question(sheetId));
  }

  /** Errors: as `field`. */
  async courses(sheetId: string): Promise<WindowCourses> {
    return inBenchThread('courses', await this.question(sheetId));
  }

  /** Null: there is none yet, or none can be made. Errors: record.missing. */
  async fitOf(sheetId: string): Promise<LadderFit | null> {
    const asked = questionOf(await this.ladders.get(sheetId));
    if ('missing' in asked) return null;
    try {
      return fitOf(await inBenchThread('fit', asked.question));
    } catch (error) {
      if (isUnusable(error)) return null;
      throw error;
    }
  }

  /** Errors: request.invalid, press.invalid, press.unsafe, record.missing. */
  async verdict(question: unknown): Promise<BlackAnswer> {
    const { black, step, ladderId, blankId } = checked(
      blackQuestionSchema,
      question,
      'The question about a black cannot be understood',
    );
    const own = await this.ladderFor(ladderId, blankId);
    // A blank that is gone may have left a ladder; one that never was has none.
    if (own === null && blankId !== undefined && !(await this.isBlank(blankId)))
      throw missing('blank', blankId);
    const { pressureBar, ...plain } = step;
    const said = await inBenchThread('verdict', {
      black: blackOf(black),
      step: { ...plain, ...(pressureBar === undefined ? {} : { pressureBar }) },
      own: own?.question ?? null,
    });
    const isOwn = said.restsOn === 'own ladder';
    return {
      ...said,
      ladderId: isOwn ? own!.ladder.sheetId : null,
      remarks: [...said.remarks, ...(isOwn ? [] : practiceOnly(ladderId, own !== null))],
    };
  }

  private async question(sheetId: string): Promise<LadderQuestion> {
    const asked = questionOf(await this.ladders.get(sheetId));
    if ('question' in asked) return asked.question;
    throw new Problem('ladder.unusable', 'This ladder has no window yet.', { remedy: asked.missing });
  }

  /** The ladder named, else the latest of the blank that tells of black; null: none. Errors: record.missing. */
  private async ladderFor(
    ladderId: string | undefined,
    blankId: string | undefined,
  ): Promise<{ ladder: Ladder; question: LadderQuestion } | null> {
    const ladders =
      ladderId !== undefined
        ? [await this.ladders.get(ladderId)]
        : blankId !== undefined
          ? await this.ladders.list({ blankId })
          : [];
    for (const ladder of ladders) {
      const asked = questionOf(ladder);
      if (ladder.window !== null && 'question' in asked) return { ladder, question: asked.question };
    }
    return null;
  }
}

/** Coupons from which no window can be made, as against a fault. */
export const isUnusable = (error: unknown): error is Problem =>
  isProblem(error) && (error.code === 'ladder.unusable' || error.code.startsWith('press.'));
