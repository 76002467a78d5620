import { insideOutline } from '#craft/blank';
import type { PiecePicture } from './piece-picture.js';
import type { SheetUnderCheck } from './subject.js';
import type { SheetCheck } from './types.js';

/** Share below which see-through pixels are the soft rims of lettering rather than something to know of. */
const worthSayingShare = 0.0005;
/** 8-bit alpha below this can be told from solid. */
const solidAlpha = 250;

/** 8-bit alpha up to this leaves no print that can be seen. */
const unseenAlpha = 3;

/** What of the face is see-through: dye ink has no white, so it comes out as the bare blank. */
export function checkTransparency({ outline }: SheetUnderCheck, piece: PiecePicture | null): SheetCheck[] {
  if (piece === null) return [];
  let inside = 0;
  let seeThrough = 0;
  let visible = 0;
  for (let row = 0; row < piece.rows; row += 1) {
    for (let column = 0; column < piece.columns; column += 1) {
      const index = row * piece.columns + column;
      const alpha = piece.alpha[index]!;
      if (alpha < 0 || !insideOutline(outline, piece.xMm(column), piece.yMm(row))) continue;
      inside += 1;
      if (alpha < solidAlpha) seeThrough += 1;
      if (alpha > unseenAlpha) visible += 1;
    }
  }
  const share = inside === 0 ? 0 : seeThrough / inside;
  if (share < worthSayingShare) return [];
  if (visible === 0) {
    return [
      {
        code: 'artwork.nothing-shows',
        level: 'look',
        title: 'Nothing of the picture shows',
        detail: 'All of it on the face is see-through, so nothing would be printed there.',
        remedy: 'Check that it is the right file and that its layers were visible when it was saved.',
        value: 100,
        unit: '%',
      },
    ];
  }
  return [
    {
      code: 'artwork.transparent',
      level: 'note',
      title: 'Part of the picture is see-through',
      detail:
        `${sayPercent(share)} of the picture on the face is wholly or partly see-through. ` +
        'There is no white ink: it is laid on white, and what stays empty shows the blank itself.',
      remedy: 'If the blank is not white there, put the background you want into the artwork.',
      value: share * 100,
      unit: '%',
    },
  ];
}

function sayPercent(share: number): string {
  const percent = share * 100;
  if (percent < 1) return 'Less than 1 %';
  return percent > 99 ? 'More than 99 %' : `About ${percent.toFixed(0)} %`;
}
