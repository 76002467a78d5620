import { safetyBoundC } from '#craft/heat';
import { Problem } from '#craft/problem';
import { type Coupon, type CouponValues, type Measured, type PressStep, solids } from './types.js';

export const couponCounts = { fewest: 4, most: 16 } as const;

/** @throws Problem `press.invalid` or `press.unsafe`, naming the value */
export function checkStep({ platenC, dwellSeconds, pressureBar }: PressStep, where: string): void {
  if (!(platenC >= 100))
    throw new Problem('press.invalid', `${where}: ${platenC} °C is no temperature to press at.`, {
      remedy: 'Give the platen’s temperature in °C, 100 or more.',
      where,
    });
  if (platenC > safetyBoundC)
    throw new Problem(
      'press.unsafe',
      `${where}: ${platenC} °C is above the safety bound of ${safetyBoundC} °C.`,
      {
        remedy: 'Stay below: sheets and coatings give off harmful vapour when hotter.',
        where,
      },
    );
  if (!(dwellSeconds > 0 && dwellSeconds <= 1800))
    throw new Problem('press.invalid', `${where}: ${dwellSeconds} seconds is no time to press for.`, {
      remedy: 'Give seconds above 0, up to 1800.',
      where,
    });
  if (pressureBar !== undefined && !(pressureBar > 0 && pressureBar <= 20))
    throw new Problem('press.invalid', `${where}: ${pressureBar} bar is no pressure on a blank.`, {
      remedy: 'Give the pressure on the blank in bar, above 0, up to 20.',
      where,
    });
}

/** @throws Problem when a coupon cannot be what it says, or too few are there to tell anything */
export function checkCoupons(coupons: readonly Coupon[]): void {
  if (coupons.length < couponCounts.fewest)
    throw new Problem('ladder.unusable', `A window needs at least 4 coupons; there are ${coupons.length}.`, {
      remedy: 'Press and read more coupons, or find the missing ones.',
    });
  const ids = new Set<string>();
  for (const { id, step, values } of coupons) {
    if (ids.has(id))
      throw new Problem('ladder.unusable', `Coupon ${id} is there twice.`, {
        remedy: 'Read each coupon once, or give the second its own id.',
        where: id,
      });
    ids.add(id);
    checkStep(step, `Coupon ${id}`);
    if (values) checkValues(id, values);
  }
  const pressures = coupons.filter(({ step }) => step.pressureBar !== undefined).length;
  if (pressures > 0 && pressures < coupons.length)
    throw new Problem('ladder.unusable', 'The pressure is known for some coupons and not for others.', {
      remedy: 'Give the pressure of every coupon, or of none.',
    });
  const settings = new Set(coupons.map(({ step: s }) => `${s.platenC} ${s.dwellSeconds} ${s.pressureBar}`));
  if (settings.size < 3)
    throw new Problem('ladder.unusable', 'The coupons were pressed at fewer than three different settings.', {
      remedy: 'Press further coupons, shorter and longer than these.',
    });
}

function checkValues(id: string, values: CouponValues): void {
  const check = (name: string, measured: Measured | undefined, low: number, high: number): void => {
    if (measured === undefined) return;
    if (!(measured.value >= low && measured.value <= high))
      refuse(`Coupon ${id}: ${name} of ${measured.value} cannot be (${low} to ${high}).`, id);
    if (!(measured.sd > 0 && Number.isFinite(measured.sd)))
      refuse(`Coupon ${id}: ${name} has no standard deviation above 0.`, id);
  };
  for (const solid of solids) {
    check(`the density of ${solid}`, values.density?.[solid], -0.1, 5);
    if (solid !== 'black') check(`the chroma of ${solid}`, values.chroma?.[solid], 0, 200);
  }
  check('the edge width', values.edgeUm, 1, 20_000);
  check('small text', values.smallText, 0, 1);
  for (const [name, measured] of [
    ['black', values.blackLab],
    ['grey', values.greyLab],
  ] as const) {
    if (!measured) continue;
    const bounds = [
      [-1, 101],
      [-130, 130],
      [-130, 130],
    ] as const;
    bounds.forEach(([low, high], i) => {
      check(`the Lab of ${name}`, { value: measured.lab[i]!, sd: measured.sdLab[i]! }, low, high);
    });
  }
}

function refuse(message: string, where: string): never {
  throw new Problem('ladder.unusable', message, { remedy: 'Read the coupon again.', where });
}
