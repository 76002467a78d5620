import type { Press, TestSheetOrderInput } from '#contract';
import type { Presses } from '#shop/presses';

const press: Press = {
  id: 'demo-studio-press',
  name: 'Demo: the studio’s flat press',
  kind: 'flat',
  platenWidthMm: 400,
  platenDepthMm: 300,
  heatedFrom: 'above',
  watts: 1800,
  drive: null,
  note: 'Demo: an invented press, measured once with invented figures.',
  demo: true,
};

/** A press and its temperatures, as its owner would have typed them in: some degrees too cool, most at the front left. */
export async function demoPress(presses: Presses): Promise<void> {
  await presses.save(press.id, press);
  await presses.addCheck(press.id, {
    setC: 200,
    method: 'probe',
    columns: 3,
    rows: 3,
    celsius: [195.4, 197.1, 197.6, 193.8, 196.9, 196.2, 190.9, 194.3, 195.1],
    note: 'Demo: invented temperatures.',
  });
}

/** A ladder and an evenness sheet, always the same: they are named after all they are made from, and examples/ has scans of them. */
export function demoPressSheets(setupId: string): TestSheetOrderInput[] {
  const every = { setupId, blankId: 'aluminium-sheet-200x300' };
  return [
    {
      kind: 'ladder',
      ...every,
      coupons: 9,
      factors: [{ kind: 'time', low: 35, high: 105 }],
      start: { platenC: 196, dwellSeconds: 60 },
    },
    { kind: 'evenness', ...every },
  ];
}
