import type { SheetUnderCheck } from './subject.js';
import type { SheetCheck } from './types.js';

/** Mirrored in one place only: remind a person whose printer's driver does it. */
export function checkMirror({ mirroredBy }: SheetUnderCheck): SheetCheck[] {
  if (mirroredBy === 'sheet') return [];
  return [
    {
      code: 'mirror.by-driver',
      level: 'note',
      title: 'The driver must mirror this sheet',
      detail: 'This print setup leaves mirroring to the printer’s driver, so the file is not mirrored.',
      remedy:
        'Turn mirroring on in the driver, and see that the lettering reads backwards on the paper before pressing.',
      value: null,
      unit: null,
    },
  ];
}
