import type { Ladder } from '#contract';
import { towardsBrown } from '#craft/presswindow';
import { listed, plural } from './words.js';

/** What the window does not say by itself: what it rests on. The gravest first. */
export function ladderRemarks(ladder: Ladder, offsetNowK: number | null): string[] {
  const { coupons, plan, pictures } = ladder;
  const out: string[] = [];
  const wanting = coupons.filter((one) => one.values === null && one.byEye === null && !one.leftOut);
  const used = coupons.length - wanting.length - coupons.filter(({ leftOut }) => leftOut).length;
  if (wanting.length > 0)
    out.push(
      `${plural(wanting.length, 'Coupon', 'Coupons')} ${listed(wanting.map(({ number }) => number))} ${plural(wanting.length, 'was', 'were')} neither read nor judged: the window rests on the other ${used}.`,
    );
  const left = coupons.filter(({ leftOut }) => leftOut).map(({ number }) => number);
  if (left.length > 0)
    out.push(`${plural(left.length, 'Coupon', 'Coupons')} ${listed(left)} left out by hand.`);

  const sources = pictures.filter(({ id }) => coupons.some(({ pictureId }) => pictureId === id));
  const grades = new Set(sources.map(({ grade }) => grade));
  if (grades.has('D'))
    out.push(
      'The hue of black is by the scanner’s own word (grade D): it may be wrong by a unit or two for all coupons alike, and the window with it. Hold a black from its middle beside something surely neutral, or calibrate the scanner.',
    );
  const readers = new Set(sources.map(({ readerId, grade }) => `${readerId} ${grade}`));
  if (readers.size > 1)
    out.push(
      'The coupons were read by different scanners, or before and after a calibration: small differences between them may be the readers’. Scan them all once more together.',
    );
  if (plan.offsetK !== null || offsetNowK !== null) {
    const change = (offsetNowK ?? plan.offsetK ?? 0) - (plan.offsetK ?? 0);
    if (Math.abs(change) >= 2)
      out.push(
        `The press was measured since this ladder was planned: its platen is ${Math.abs(change).toFixed(0)} °C ${change > 0 ? 'hotter' : 'cooler'} than was taken here. What to set stays right; the true temperatures told are off by as much.`,
      );
  }
  return out;
}

/** A tint beyond this by the scan is seen by eye, too: `blackByEye` of the press window, with room for both's doubt. */
const surelyTinted = 4;

/** Coupons whose black eyes and scan judge the opposite way, by number. */
export function eyesAgainstScan(ladder: Pick<Ladder, 'coupons'>): Map<number, string> {
  const out = new Map<number, string>();
  for (const { number, byEye, values } of ladder.coupons) {
    const black = byEye?.black;
    if (black === undefined || !values?.blackLab) continue;
    const hue = towardsBrown(values.blackLab.lab);
    const scan = hue > surelyTinted ? 'brown' : hue < -surelyTinted ? 'green' : 'neutral';
    const isOpposite =
      (black === 'green' && hue > 0 && scan !== 'neutral') ||
      (black === 'brown' && hue < 0 && scan !== 'neutral') ||
      (black === 'neutral' && scan !== 'neutral');
    if (isOpposite)
      out.set(
        number,
        `By eye its black is ${black}, by the scan ${scan}: the scan counts. Take the scan’s picture out if your eyes are right.`,
      );
  }
  return out;
}
