import type { Blank, Press } from '#contract';
import type { Presses } from '#shop/presses';

/** A press that an order names, as it is now. */
export interface FoundPress {
  readonly press: Press;
  /** True less set temperature by the newest check, K; null: never measured. */
  readonly offsetK: number | null;
}

/** Errors: record.missing. */
export async function findPress(presses: Presses, id: string): Promise<FoundPress> {
  const [press, { offsetK }] = await Promise.all([presses.get(id), presses.offset(id)]);
  return { press, offsetK: offsetK?.value ?? null };
}

/** A round piece in a press for such: its coupons go round it and are judged by eye, for a scanner reads flat things. */
export const isPressedRound = (blank: Blank, found: FoundPress | null): boolean =>
  blank.shape.kind === 'cylinder' && found !== null && found.press.kind !== 'flat';

/** Whole degrees to set for a true temperature. */
export const setCFor = (platenC: number, offsetK: number | null): number =>
  Math.round(platenC - (offsetK ?? 0));

/** What is known of the press's own error, in a sentence. */
export function offsetRemarks(found: FoundPress | null): string[] {
  if (found === null) return ['No press is named: what its display says is taken as true.'];
  const { press, offsetK } = found;
  if (offsetK === null)
    return [
      `Nobody has measured the platen of “${press.name}”: what it says is taken as true. Type in a few temperatures, and the recipe holds on other presses too.`,
    ];
  const off = Math.round(Math.abs(offsetK));
  if (off === 0) return [`“${press.name}” is as hot as it says, by its latest check.`];
  return [
    `“${press.name}” is ${off} °C ${offsetK < 0 ? 'cooler' : 'hotter'} than it says, by its latest check: what to set is corrected by that.`,
  ];
}
