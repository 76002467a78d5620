import type { TestSheetKind } from '#contract';

export const kindWords: Readonly<Record<TestSheetKind, string>> = {
  colour: 'a colour test sheet',
  'follow-up': 'a follow-up sheet',
  check: 'a check sheet',
  grey: 'a grey sheet',
  palette: 'a palette',
  ladder: 'a ladder',
  evenness: 'an evenness sheet',
};
