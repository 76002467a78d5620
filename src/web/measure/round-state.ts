import type { ColourPath, PathStanding, Reading, TestSheet } from '#contract';

export type Stage = 'made' | 'pressed' | 'read' | 'picked' | 'path' | 'checked' | 'judged';

/** What a person said of a sheet on this device; the program cannot see it. */
export interface SaidOfSheet {
  readonly printed?: boolean;
  readonly pressed?: boolean;
  /** The path made from a grey sheet's picks. */
  readonly pathId?: string;
}

export interface RoundState {
  readonly sheet: TestSheet;
  readonly stages: readonly { readonly stage: Stage; readonly done: boolean }[];
  /** What comes next; null: nothing more to do. */
  readonly next: Stage | null;
  readonly readings: readonly Reading[];
  readonly path: ColourPath | null;
}

const stagesOf: Record<TestSheet['kind'], readonly Stage[]> = {
  colour: ['made', 'pressed', 'read', 'path', 'checked'],
  'follow-up': ['made', 'pressed', 'read', 'path'],
  check: ['made', 'pressed', 'read', 'judged'],
  grey: ['made', 'pressed', 'picked'],
  palette: ['made', 'pressed'],
  // Their rounds belong to the place Press.
  ladder: ['made', 'pressed'],
  evenness: ['made', 'pressed'],
};

/** How far a test sheet has come. A stage counts as done when a later one is. */
export function roundState(
  sheet: TestSheet,
  known: {
    readonly readings: readonly Reading[];
    readonly paths: readonly ColourPath[];
    readonly standings: readonly PathStanding[];
    readonly judged: boolean;
    readonly said: SaidOfSheet;
  },
): RoundState {
  const readings = known.readings.filter((reading) => reading.sheetId === sheet.id);
  const ofPiece = readings.filter((reading) => reading.subject === 'piece');
  const ids = new Set(readings.map((reading) => reading.id));
  const newestFirst = [...known.paths].sort((one, two) => two.createdAt.localeCompare(one.createdAt));
  const path =
    newestFirst.find((one) => one.measurement?.readingIds.some((id) => ids.has(id))) ??
    newestFirst.find((one) => one.id === known.said.pathId) ??
    null;
  const standing = known.standings.find((one) => one.pathId === path?.id);
  const seen: Record<Stage, boolean> = {
    made: true,
    pressed: known.said.pressed === true || ofPiece.length > 0,
    read: ofPiece.length > 0,
    picked: path !== null,
    path: path !== null,
    checked: (standing?.lastCheck ?? null) !== null,
    judged: known.judged,
  };
  const names = stagesOf[sheet.kind];
  const last = names.reduce((at, stage, i) => (seen[stage] ? i : at), 0);
  const stages = names.map((stage, i) => ({ stage, done: i <= last }));
  return { sheet, stages, next: names[last + 1] ?? null, readings, path };
}

/** Where the shop stands, in one sentence. */
export function standingSentence(shop: {
  readonly paths: number;
  readonly toLookAt: number;
  readonly unchecked: number;
  readonly underWay: number;
}): string {
  const { paths, toLookAt, unchecked, underWay } = shop;
  if (paths === 0) {
    if (underWay === 0) return 'No colour path measured yet.';
    return underWay === 1
      ? 'A first colour path is under way.'
      : `${inWords(underWay)} sheets are under way.`;
  }
  const have = paths === 1 ? 'One colour path' : `${inWords(paths)} colour paths`;
  if (toLookAt > 0) {
    return paths === 1
      ? `${have}, and it no longer quite fits.`
      : `${have}, ${inWords(toLookAt).toLowerCase()} no longer quite ${toLookAt === 1 ? 'fits' : 'fit'}.`;
  }
  if (unchecked > 0) {
    return paths === 1
      ? `${have}, not checked yet.`
      : `${have}, ${inWords(unchecked).toLowerCase()} ${unchecked === 1 ? 'wants' : 'want'} a check.`;
  }
  return paths === 1 ? `${have}, checked: it holds.` : `${have}, all checked: they hold.`;
}

const small = [
  'No',
  'One',
  'Two',
  'Three',
  'Four',
  'Five',
  'Six',
  'Seven',
  'Eight',
  'Nine',
  'Ten',
  'Eleven',
  'Twelve',
];
const inWords = (count: number): string => small[count] ?? String(count);
