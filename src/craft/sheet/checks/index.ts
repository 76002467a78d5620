import type { SheetUnderCheck } from './subject.js';
import type { SheetCheck } from './types.js';

export { standingSentence } from './standing.js';
export type { SheetUnderCheck, SmallPicture } from './subject.js';
export type { CheckCode, SheetCheck } from './types.js';

/** Look a proposed sheet over: what stops it first, then what to look at, then notes. */
export function checkSheet(_subject: SheetUnderCheck): SheetCheck[] {
  return [];
}
