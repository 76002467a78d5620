/** One thing looked at before the sheet; the contract's `Check` has this shape. */
export interface SheetCheck {
  readonly code: CheckCode;
  /** stop: the sheet would be wrong, none is made. look: worth a person's eye. note: good to know. */
  readonly level: 'stop' | 'look' | 'note';
  readonly title: string;
  readonly detail: string;
  /** What to do, as an instruction. */
  readonly remedy: string;
  readonly value: number | null;
  readonly unit: string | null;
}

export type CheckCode =
  | 'resolution.soft'
  | 'resolution.modest'
  | 'bleed.missing'
  | 'bleed.below-tolerance'
  | 'edge.white-shows'
  | 'edge.too-close'
  | 'edge.runs-off'
  | 'artwork.off-the-piece'
  | 'artwork.transparent'
  | 'artwork.nothing-shows'
  | 'colour.unreachable'
  | 'colour.not-calibrated'
  | 'colour.path-stale'
  | 'colour.path-doubtful'
  | 'blank.uncoated'
  | 'blank.little-polyester'
  | 'blank.polyester-unknown'
  | 'seam.overlap'
  | 'sheet.does-not-fit'
  | 'sheet.not-all-copies'
  | 'sheet.no-room-for-marks'
  | 'sheet.turned'
  | 'mirror.by-driver'
  | 'mirror.seen-through';
