import type { Blank, Press, PrintSetup } from '#contract';

/** Where a new blank starts: a square coated tile, to be changed. Recipe: common practice for hard tiles. */
export const newBlank: Blank = {
  id: '',
  name: '',
  material: 'ceramic',
  shape: { kind: 'rectangle', widthMm: 150, heightMm: 150, cornerRadiusMm: 0 },
  toleranceMm: 1,
  bleedMm: 3,
  safeMm: 4,
  coating: { kind: 'polymer', side: 'the glossy, whiter face' },
  polyesterPercent: null,
  recipe: {
    platenC: 200,
    dwellSeconds: 240,
    pressure: 'medium',
    steps: [],
    basis: 'Common practice; the maker’s instructions come first.',
  },
  note: '',
  demo: false,
};

export const newSetup: PrintSetup = {
  id: '',
  name: '',
  printer: '',
  ink: '',
  paper: {
    name: 'Transfer paper A4',
    widthMm: 210,
    heightMm: 297,
    marginMm: 5,
    printSide: 'the whiter side',
  },
  driverSettings: ['Borderless: off; it enlarges the page.', 'Quality: high; both-way (fast) printing off.'],
  ppi: 300,
  mirroredBy: 'sheet',
  colourPathId: null,
  intent: 'relative',
  blackPointCompensation: true,
  note: '',
  demo: false,
};

/** Where a new press starts: a flat one of a common size. */
export const newPress: Press = {
  id: '',
  name: '',
  kind: 'flat',
  platenWidthMm: 380,
  platenDepthMm: 380,
  heatedFrom: 'above',
  watts: null,
  drive: null,
  note: '',
  demo: false,
};

/** A name as an id that no other record has: lower-case letters, digits and hyphens. */
export function freshId(name: string, taken: readonly { readonly id: string }[]): string {
  const base =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 56) || 'record';
  let id = base;
  for (let n = 2; taken.some((one) => one.id === id); n += 1) id = `${base}-${n}`;
  return id;
}
