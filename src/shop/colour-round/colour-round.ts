import { createHash } from 'node:crypto';
import {
  type ColourPath,
  eyePicksSchema,
  type Grade,
  type Job,
  learnRequestSchema,
  type PathCheck,
  type PathStanding,
} from '#contract';
import type { PathWorkOptions } from '#shop/paths';
import { digestOf } from '#shop/store';
import { checked } from '#shop/validate';
import { checkPath } from './check-path.js';
import { judgeByEye } from './judge-by-eye.js';
import { learnPrepared, prepareLearning } from './learn-from-readings.js';
import type { ColourRoundParts } from './parts.js';
import { pathStanding, type StandingQuestion } from './path-standing.js';

/** What may be said of a file of measurements. */
export interface AboutFile {
  readonly name: string;
  /** Setup that is to use the path at once; with a blank: what it belongs to. */
  readonly setupId?: string | undefined;
  readonly blankId?: string | undefined;
  readonly grade?: Grade | undefined;
}

/** From readings to a path, and whether the path keeps what it promises. Requests are checked here. */
export class ColourRound {
  constructor(private readonly parts: ColourRoundParts) {}

  /** Errors: request.invalid, record.missing, chart.unusable, job.cancelled, disk.full. */
  async learn(request: unknown, options: PathWorkOptions = {}): Promise<ColourPath> {
    return learnPrepared(this.parts, await prepareLearning(this.parts, asLearning(request)), options);
  }

  /** As `learn`, as a job; what can be seen at once to be wrong is said at once. */
  async startLearn(request: unknown): Promise<Job> {
    const wanted = asLearning(request);
    const prepared = await prepareLearning(this.parts, wanted);
    return this.parts.jobs.start({
      kind: 'learn-path',
      key: `learn-path:${digestOf(wanted)}`,
      work: async (context) => (await learnPrepared(this.parts, prepared, context)).id,
    });
  }

  /** From a file of measurements, as a job. Errors: record.missing. */
  async startLearnFile(bytes: Uint8Array, about: AboutFile): Promise<Job> {
    const { paths, setups, blanks, jobs } = this.parts;
    const { name, setupId, blankId, grade } = about;
    const setup = setupId === undefined ? null : await setups.get(setupId);
    const blank = blankId === undefined ? null : await blanks.get(blankId);
    const belongsTo = setup === null || blank === null ? undefined : { setup, blank };
    return jobs.start({
      kind: 'learn-path',
      key: `learn-path:${digestOf(about)}:${createHash('sha256').update(bytes).digest('hex')}`,
      work: async (context) => {
        const { path } = await paths.build(bytes, { ...context, name, grade, belongsTo });
        if (setupId !== undefined) {
          const current = await setups.get(setupId);
          await setups.save(setupId, { ...current, colourPathId: path.id });
        }
        return path.id;
      },
    });
  }

  /** A path of grade E. Errors: request.invalid, record.missing, disk.full. */
  async byEye(picks: unknown): Promise<ColourPath> {
    return judgeByEye(this.parts, checked(eyePicksSchema, picks, 'The picks cannot be understood'));
  }

  /** Judges a path by a reading of a check sheet, and keeps the judgement. Errors: record.missing, chart.unusable. */
  async check(pathId: string, readingId: string): Promise<PathCheck> {
    const { paths, readings, records } = this.parts;
    const check = await checkPath(this.parts, await paths.get(pathId), await readings.get(readingId));
    await records.pathChecks.put(check);
    return check;
  }

  /** Newest first. Errors: record.missing. */
  async checks(pathId: string): Promise<PathCheck[]> {
    await this.parts.paths.get(pathId);
    return this.parts.records.pathChecks.list(pathId);
  }

  /** Whether a path still fits. Errors: record.missing. */
  async standing(pathId: string, question: StandingQuestion = {}): Promise<PathStanding> {
    return pathStanding(this.parts, await this.parts.paths.get(pathId), question);
  }
}

const asLearning = (request: unknown) =>
  checked(learnRequestSchema, request, 'It cannot be understood what is to be learnt');
