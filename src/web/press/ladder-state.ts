import type { Ladder } from '#contract';
import { inWords } from './words.js';

export type LadderStage = 'made' | 'pressed' | 'read' | 'window';

/** What was ticked on this device; the program cannot see it. */
export interface SaidOfLadder {
  readonly printed?: boolean;
  /** Numbers of the coupons pressed. */
  readonly pressed?: readonly number[];
}

export type LadderCoupon = Ladder['coupons'][number];

/** Read from a picture, or judged by eye. */
export const isKnown = (coupon: LadderCoupon): boolean =>
  coupon.values !== null || coupon.byEye?.black !== undefined || coupon.byEye?.edges !== undefined;

/** How far a ladder has come. A stage counts as done when a later one is. */
export function ladderStages(
  ladder: Ladder,
  said: SaidOfLadder,
): { readonly stage: LadderStage; readonly done: boolean }[] {
  const counted = ladder.coupons.filter((coupon) => !coupon.leftOut);
  const pressed = new Set(said.pressed ?? []);
  const seen: Record<LadderStage, boolean> = {
    made: true,
    pressed: counted.length > 0 && counted.every((coupon) => pressed.has(coupon.number) || isKnown(coupon)),
    read: counted.length > 0 && counted.every(isKnown),
    window: ladder.window !== null,
  };
  const names: readonly LadderStage[] = ['made', 'pressed', 'read', 'window'];
  const last = names.reduce((at, stage, i) => (seen[stage] ? i : at), 0);
  return names.map((stage, i) => ({ stage, done: i <= last }));
}

export const nextStage = (ladder: Ladder, said: SaidOfLadder): LadderStage | null =>
  ladderStages(ladder, said).find((one) => !one.done)?.stage ?? null;

/** Where the place stands, in one sentence. */
export function pressStanding(ladders: readonly Ladder[], said: (sheetId: string) => SaidOfLadder): string {
  const own = ladders.filter((ladder) => !ladder.demo);
  const found = own.filter((ladder) => ladder.window !== null);
  const sure = found.filter((ladder) => ladder.window?.isSure).length;
  const open = own.length - found.length;
  if (own.length === 0) {
    return ladders.length === 0
      ? 'No settings measured yet: they are still copied from leaflets.'
      : 'No recipe of your own measured yet; the demo ladder shows how it goes.';
  }
  if (found.length === 0) {
    const next = own[0] && nextStage(own[0], said(own[0].sheetId));
    if (own.length > 1) return `${inWords(own.length)} ladders under way, no recipe measured yet.`;
    return next === 'pressed' ? 'A first ladder is waiting to be pressed.' : 'A first ladder is under way.';
  }
  const have = found.length === 1 ? 'One recipe measured' : `${inWords(found.length)} recipes measured`;
  const unsure = found.length - sure;
  const doubt =
    unsure === 0
      ? found.length === 1
        ? ', and it is sure'
        : ', all of them sure'
      : found.length === 1
        ? '; a further coupon would make it surer'
        : unsure === found.length
          ? '; further coupons would make them surer'
          : `; ${inWords(unsure).toLowerCase()} would be surer with a further coupon`;
  const under =
    open === 0 ? '' : ` ${open === 1 ? 'One ladder is' : `${inWords(open)} ladders are`} under way.`;
  return `${have}${doubt}.${under}`;
}
