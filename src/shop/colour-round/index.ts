export { type AboutFile, ColourRound } from './colour-round.js';
export type { ColourRoundParts, ReadingsPort, TestSheetsPort, WantedPatch } from './parts.js';
export type { StandingQuestion } from './path-standing.js';
