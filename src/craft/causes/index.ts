export { type Because, type CausesFound, findCauses, type RankedCause } from './find-causes.js';
export {
  bookCounts,
  type LearntPrior,
  learnPriors,
  learnUsual,
  type Outcome,
  withPriors,
} from './learn.js';
export { type CauseModel, causeModel } from './model.js';
export { type CostRates, costOf, type NextStep, type NextSteps, nextSteps, usualRates } from './next-step.js';
export { noisyOr } from './noisy-or.js';
export { readCauseBook } from './read-book.js';
export { costOfOrder, type RepairPlan, type RepairStep, repairPlan } from './repair-plan.js';
export type * from './types.js';
export { areas } from './types.js';
export { type TestValue, valueOfTest } from './value-of-test.js';
