export { type ProblemCode, problemCodes } from './codes.js';
export { asProblem, isProblem, Problem, type ProblemKind } from './problem.js';
