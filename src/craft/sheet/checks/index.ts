import { checkBlank } from './blank.js';
import { checkBleed } from './bleed.js';
import { checkColour } from './colour.js';
import { checkEdgeContent } from './edge-content.js';
import { checkMirror } from './mirror.js';
import { artworkOnPiece, type PiecePicture } from './piece-picture.js';
import { checkResolution } from './resolution.js';
import { checkSeam } from './seam.js';
import { checkSheetRoom } from './sheet-room.js';
import type { SheetUnderCheck } from './subject.js';
import { checkTransparency } from './transparency.js';
import type { SheetCheck } from './types.js';

export { standingSentence } from './standing.js';
export type { SheetUnderCheck, SmallPicture } from './subject.js';
export type { CheckCode, SheetCheck } from './types.js';

/** In the order of the work: the blank, the paper, the picture, its colour, the printing. */
type Look = (subject: SheetUnderCheck, piece: PiecePicture | null) => SheetCheck[];
const allChecks: readonly Look[] = [
  checkBlank,
  checkSheetRoom,
  checkSeam,
  checkBleed,
  checkEdgeContent,
  checkResolution,
  checkTransparency,
  checkColour,
  checkMirror,
];
const urgency = { stop: 0, look: 1, note: 2 } as const;

/** Look a proposed sheet over: what stops it first, then what to look at, then notes. */
export function checkSheet(subject: SheetUnderCheck): SheetCheck[] {
  const { picture, outline, layout } = subject;
  const piece = picture === null ? null : artworkOnPiece(picture, outline, layout.artwork);
  return allChecks
    .flatMap((check) => check(subject, piece))
    .sort((a, b) => urgency[a.level] - urgency[b.level]);
}
