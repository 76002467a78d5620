export { type ProblemCode, problemCodes } from './codes.js';
export { isProblem, Problem, type ProblemKind } from './problem.js';
