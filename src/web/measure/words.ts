import type { Reading, TestSheet } from '#contract';
import type { Stage } from './round-state.js';

export const kindNames: Record<TestSheet['kind'], string> = {
  colour: 'Colour test sheet',
  'follow-up': 'Follow-up sheet',
  check: 'Check sheet',
  grey: 'Grey sheet',
  palette: 'Palette sheet',
  ladder: 'Ladder',
  evenness: 'Evenness sheet',
};

/** What has been done, beside its sign. */
export const stageNames: Record<Stage, string> = {
  made: 'made',
  pressed: 'pressed',
  read: 'read',
  picked: 'picked by eye',
  path: 'path learnt',
  checked: 'checked',
  judged: 'judged',
};
/** What is to be done next, as an instruction. */
export const nextNames: Record<Stage, string> = {
  made: 'Make it',
  pressed: 'Print and press it',
  read: 'Scan it and have it read',
  picked: 'Pick the greys by eye',
  path: 'Learn the path',
  checked: 'Check it with a small second print',
  judged: 'Hold it against what the path promised',
};

export const fromNames: Record<Reading['from'], string> = {
  scan: 'scan',
  photo: 'photo',
  instrument: 'instrument file',
};

/** Why a patch is doubtful, in a few words; names as `PatchWarning` of the reader has them. */
const warningWords: Record<string, string> = {
  clipped: 'too light for the reader',
  'too-dark': 'too dark for the reader',
  specks: 'dust or threads',
  uneven: 'one side lighter',
  'odd-light': 'glare or shadow',
  'few-pixels': 'too few pixels',
  'unlike-its-likes': 'unlike its likes',
};
export const warningText = (warning: string): string => warningWords[warning] ?? warning.replaceAll('-', ' ');

export { momentText } from '../words/index.js';
