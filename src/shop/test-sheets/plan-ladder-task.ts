import type { LadderPlanFacts } from '#contract';
import { checkStep, couponCounts, planLadder } from '#craft/presswindow';
import { Problem } from '#craft/problem';
import { planLadderSheet } from '#craft/testsheet';
import { offsetRemarks, setCFor } from './found-press.js';
import { type LadderOrder, type LadderRanges, ladderRanges } from './ladder-ranges.js';
import { captionOf, noMore, type PlannedTestSheet, type PlanTask } from './plan-task.js';
import { couponSide, couponsOn, millimetres, sheetForCoupons, sizeWords } from './sheet-size.js';

/** Errors: press.invalid, press.unsafe for a ladder that cannot be; sheet.impossible when it does not fit. */
export function planLadderTask(task: PlanTask, order: LadderOrder): PlannedTestSheet {
  const { facts, remarks } = ladderFacts(task, order);
  const { size, material, sheetId, setup } = task;
  const { couponMm } = facts;
  assertRoom(task, facts);
  const { plan } = planLadderSheet({
    ...size,
    sheetId,
    material,
    mirrorOnWriting: setup.mirroredBy === 'sheet',
    caption: captionOf(task, facts.coupons.length),
    coupons: facts.coupons.map((coupon) => ({ number: coupon.number, step: stepLabel(facts, coupon) })),
    couponWidthMm: couponMm,
    couponHeightMm: couponMm,
  });
  return {
    plan,
    kept: {
      chart: null,
      wanted: null,
      fields: null,
      ladder: { sheetId, couponWidthMm: couponMm, couponHeightMm: couponMm, material },
    },
    ...noMore,
    ladder: facts,
    patches: facts.coupons.length,
    patchMm: couponMm,
    remarks,
  };
}

function assertRoom({ size, setup }: PlanTask, { couponMm, coupons }: LadderPlanFacts): void {
  const room = couponsOn(size, couponMm);
  if (room >= coupons.length) return;
  const larger = sheetForCoupons(size, { couponMm, coupons: coupons.length, paper: setup.paper });
  const sheet =
    larger === null
      ? 'no usual sheet holds so many'
      : `${larger.words} holds them${larger.isOnPaper ? '' : ', which is larger than the paper of this print setup'}`;
  const most = Math.min(room, couponCounts.most);
  throw new Problem(
    'sheet.impossible',
    `${coupons.length} coupons of ${millimetres(couponMm)} mm do not fit on ${sizeWords(size.widthMm, size.heightMm)}.`,
    {
      remedy:
        most >= couponCounts.fewest ? `At most ${most} fit; ${sheet}.` : `Take a larger sheet: ${sheet}.`,
      where: 'coupons',
    },
  );
}

type FactsTask = Pick<PlanTask, 'blank' | 'press' | 'material' | 'seed'>;

/** What is to be pressed, in the order to press. Errors: press.invalid, press.unsafe. */
export function ladderFacts(
  { blank, press, material, seed }: FactsTask,
  order: LadderOrder,
): { readonly facts: LadderPlanFacts; readonly remarks: readonly string[] } {
  const { start, limits, factors, remarks } = ladderRanges(order, blank.recipe);
  const { pressureBar, ...most } = start;
  assertWithinBound(start, factors);
  const planned = planLadder({
    coupons: order.coupons,
    factors,
    start: pressureBar === undefined ? most : { ...most, pressureBar },
    limits: {
      platenC: limits.platenC,
      dwellSeconds: limits.dwellSeconds,
      ...(limits.pressureBar === undefined ? {} : { pressureBar: limits.pressureBar }),
    },
    seed,
  });
  const offsetK = press?.offsetK ?? null;
  const facts: LadderPlanFacts = {
    kind: planned.kind,
    words: planned.words,
    factors: [...planned.factors],
    start,
    limits,
    temperatureChanges: planned.temperatureChanges,
    offsetK,
    pressId: press?.press.id ?? null,
    pressName: press?.press.name ?? null,
    couponMm: couponSide(order, material),
    coupons: planned.coupons.map(({ step, alike }, i) => ({
      number: i + 1,
      step,
      setC: setCFor(step.platenC, offsetK),
      alike,
    })),
  };
  return { facts, remarks: [...remarks, ...offsetRemarks(press)] };
}

/** The safety bound is named before the maker's range: it holds for every blank. Errors: press.unsafe, press.invalid. */
function assertWithinBound(start: LadderPlanFacts['start'], factors: LadderRanges['factors']): void {
  const { platenC, dwellSeconds } = start;
  checkStep({ platenC, dwellSeconds }, 'The recipe to start from');
  const hottest = factors.find(({ kind }) => kind === 'temperature')?.range?.[1];
  if (hottest !== undefined) checkStep({ platenC: hottest, dwellSeconds }, 'The hottest coupon');
}

/** What is to be set, as it stands on the coupon: '203 °C · 55 s', with the pressure where it varies. */
function stepLabel(facts: LadderPlanFacts, { setC, step }: LadderPlanFacts['coupons'][number]): string {
  const bar = facts.factors.includes('pressure') ? [`${step.pressureBar} bar`] : [];
  return [`${setC} °C`, `${step.dwellSeconds} s`, ...bar].join(' · ');
}
