import type { Blank, ColourPath, PrintSetup, SheetMaterialName, TestSheetOrderInput } from '#contract';
import { flatFace } from '../../frame/flat-face.js';

export { flatFace };

/** Kinds that Measure makes; ladders and evenness sheets begin at the place Press. */
export type StartKind = Exclude<TestSheetOrderInput['kind'], 'ladder' | 'evenness'>;
export type SheetSize = 'paper' | 'face' | 'own';

/** What a person has chosen for a test sheet so far. */
export interface StartChoice {
  readonly kind: StartKind;
  readonly setup: PrintSetup | null;
  readonly blank: Blank | null;
  readonly path: ColourPath | null;
  readonly patches: number;
  readonly size: SheetSize;
  readonly ownMm: { readonly widthMm: number; readonly heightMm: number };
  readonly material: SheetMaterialName | null;
  readonly towards: 'doubt' | 'artwork';
  readonly artworkId: string | null;
}

/** Patches proposed first, and the bounds of the contract. */
export const patchBounds: Record<
  'colour' | 'follow-up' | 'check',
  { usual: number; least: number; most: number }
> = {
  colour: { usual: 150, least: 30, most: 900 },
  'follow-up': { usual: 40, least: 30, most: 300 },
  check: { usual: 36, least: 30, most: 90 },
};

/** The order to send; null while something is still to be chosen. */
export function orderOf(choice: StartChoice): TestSheetOrderInput | null {
  const { kind, setup, blank, path, patches, material } = choice;
  if (!setup || !blank) return null;
  const sizeMm = choice.size === 'face' ? flatFace(blank) : choice.size === 'own' ? choice.ownMm : null;
  const every = {
    setupId: setup.id,
    blankId: blank.id,
    ...(sizeMm ?? {}),
    ...(material ? { material } : {}),
  };
  if (kind === 'colour') return { kind, ...every, patches };
  if (kind === 'grey') return { kind, ...every, ...(path ? { pathId: path.id } : {}) };
  if (!path) return null;
  if (kind === 'check') return { kind, ...every, pathId: path.id, patches };
  if (kind === 'palette') return { kind, ...every, pathId: path.id };
  if (choice.towards === 'artwork') {
    return choice.artworkId === null
      ? null
      : { kind, ...every, pathId: path.id, patches, towards: 'artwork', artworkId: choice.artworkId };
  }
  return { kind, ...every, pathId: path.id, patches, towards: 'doubt' };
}
