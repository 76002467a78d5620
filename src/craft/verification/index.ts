export {
  type CheckChoice,
  type CheckColour,
  type CheckKind,
  chooseCheckColours,
} from './choose-check-colours.js';
export { type GradeLetter, gradeErrors, gradeMeanings, trustPhrase, worstGrade } from './grade-words.js';
export {
  type ErrorFigures,
  type ErrorGrounds,
  type JoinedError,
  joinErrors,
  poolErrors,
} from './join-errors.js';
export { type CheckEvidence, type CheckVerdict, type Judgement, judgeCheck } from './judge-check.js';
export { judgeRouteStrip, type StripJudgement, type StripPatch } from './judge-route-strip.js';
export { type PrintRoute, type RouteChange, type RouteChangeKind, routeChanges } from './route-changes.js';
export {
  type CheckedPatch,
  type CheckSummary,
  checkedPatch,
  type Spread,
  spreadOf,
  summariseCheck,
} from './summarise-check.js';
