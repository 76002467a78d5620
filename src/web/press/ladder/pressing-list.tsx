import { Checkbox } from '@mantine/core';
import { useId } from 'react';
import type { Ladder, PressStepFacts } from '#contract';
import { usePreferences } from '../../frame/index.js';
import { secondsText, temperatureText } from '../../words/index.js';
import { barText, inWords } from '../words.js';
import styles from './pressing.module.css';

/** The coupons in the order to press, large enough to be read across the bench; ticked as one goes. */
export function PressingList(props: {
  readonly ladder: Ladder;
  readonly pressed: ReadonlySet<number>;
  onTick(number: number, isPressed: boolean): void;
}) {
  const { ladder, pressed, onTick } = props;
  const { temperatureUnit } = usePreferences();
  const id = useId();
  const coupons = ladder.plan.coupons;
  const done = coupons.filter(({ number }) => pressed.has(number)).length;
  const next = coupons.find(({ number }) => !pressed.has(number));
  return (
    <div className={styles.list}>
      <p role="status" className={styles.count}>
        {done === coupons.length
          ? 'All pressed.'
          : `${done === 0 ? 'None' : inWords(done)} of ${coupons.length} pressed.`}
      </p>
      <ol>
        {coupons.map((coupon, i) => {
          const before = coupons[i - 1];
          const change = changeWords(before, coupon, temperatureUnit);
          return (
            <li key={coupon.number}>
              {change && <p className={styles.change}>{change}</p>}
              <label
                htmlFor={`${id}-${coupon.number}`}
                className={styles.row}
                data-next={coupon === next || undefined}
              >
                <Checkbox
                  id={`${id}-${coupon.number}`}
                  size="lg"
                  checked={pressed.has(coupon.number)}
                  onChange={(event) => onTick(coupon.number, event.currentTarget.checked)}
                  aria-label={`Coupon ${coupon.number} is pressed: ${temperatureText(coupon.setC, temperatureUnit)}, ${secondsText(coupon.step.dwellSeconds)}`}
                />
                <span className={styles.number}>
                  <span className="said-only">Coupon </span>
                  {coupon.number}
                </span>
                <span className={styles.set}>
                  <span>{temperatureText(coupon.setC, temperatureUnit)}</span>
                  <span>{secondsText(coupon.step.dwellSeconds)}</span>
                  {coupon.step.pressureBar !== undefined && <span>{barText(coupon.step.pressureBar)}</span>}
                </span>
                {coupon === next && <span className={styles.now}>next</span>}
              </label>
            </li>
          );
        })}
      </ol>
    </div>
  );
}

type Planned = { readonly setC: number; readonly step: PressStepFacts };

/** What is to be turned before this coupon. */
function changeWords(before: Planned | undefined, coupon: Planned, unit: 'C' | 'F'): string | null {
  const degrees = temperatureText(coupon.setC, unit);
  if (!before) return `Set ${degrees} and wait until the platen has settled: ten minutes at least.`;
  if (before.setC !== coupon.setC) {
    return `Now set ${degrees}. Wait until the platen has settled before you go on.`;
  }
  const bar = coupon.step.pressureBar;
  return bar !== undefined && bar !== before.step.pressureBar
    ? `Now set the pressure to ${barText(bar)}.`
    : null;
}
