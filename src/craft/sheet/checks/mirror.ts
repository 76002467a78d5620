import type { SheetUnderCheck } from './subject.js';
import type { SheetCheck } from './types.js';

/** Mirrored in one place only: remind a person whose printer's driver does it, and of pieces looked at from behind. */
export function checkMirror({ mirroredBy, blank }: SheetUnderCheck): SheetCheck[] {
  return [
    ...(blank.coating.seenThrough === true ? [seenThrough] : []),
    ...(mirroredBy === 'driver' ? [byDriver] : []),
  ];
}

const byDriver: SheetCheck = {
  code: 'mirror.by-driver',
  level: 'note',
  title: 'The driver must mirror this sheet',
  detail: 'This print setup leaves mirroring to the printer’s driver, so the file is not mirrored.',
  remedy:
    'Turn mirroring on in the driver, and see that the sheet’s line of text reads backwards on the paper before pressing.',
  value: null,
  unit: null,
};

const seenThrough: SheetCheck = {
  code: 'mirror.seen-through',
  level: 'note',
  title: 'The piece is looked at through its back',
  detail:
    'On the paper the picture itself reads the right way, so that it also does through the piece; the marks round it still read backwards.',
  remedy: 'Press on the back. If this piece is looked at from its coated side, say so in the blank.',
  value: null,
  unit: null,
};
