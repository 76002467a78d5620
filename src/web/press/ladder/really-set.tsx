import { Button, NumberInput } from '@mantine/core';
import { useState } from 'react';
import { fahrenheitToCelsius } from '#craft/units';
import { usePreferences } from '../../frame/index.js';
import { toDegrees } from '../../words/index.js';
import type { LadderCoupon } from '../ladder-state.js';
import { pressedStep } from '../words.js';
import styles from './coupons.module.css';

/** What was really set for a coupon, as the display showed it. */
export function ReallySet(props: {
  readonly coupon: LadderCoupon;
  /** True less set temperature of the press. */
  readonly offsetK: number;
  onKeep(pressed: LadderCoupon['pressed']): void;
}) {
  const { coupon, offsetK, onKeep } = props;
  const { temperatureUnit: unit } = usePreferences();
  const before = pressedStep(coupon);
  const [degrees, setDegrees] = useState<number | string>(
    Math.round(toDegrees(before.platenC - offsetK, unit)),
  );
  const [seconds, setSeconds] = useState<number | string>(before.dwellSeconds);
  const [bar, setBar] = useState<number | string>(before.pressureBar ?? '');
  const celsius =
    typeof degrees === 'number' ? (unit === 'C' ? degrees : fahrenheitToCelsius(degrees)) : null;
  const sound = celsius !== null && typeof seconds === 'number' && seconds >= 1;
  return (
    <form
      className={styles.really}
      aria-label={`What was really set for coupon ${coupon.number}`}
      onSubmit={(event) => {
        event.preventDefault();
        if (celsius === null || typeof seconds !== 'number') return;
        onKeep({
          // True temperatures are kept; a tenth is finer than any press.
          platenC: Math.round((celsius + offsetK) * 10) / 10,
          dwellSeconds: seconds,
          ...(typeof bar === 'number' ? { pressureBar: bar } : {}),
        });
      }}
    >
      <NumberInput
        size="md"
        label={`Display (°${unit})`}
        value={degrees}
        onChange={setDegrees}
        hideControls
      />
      <NumberInput
        size="md"
        label="Time (s)"
        value={seconds}
        onChange={setSeconds}
        min={1}
        max={1800}
        hideControls
      />
      {coupon.step.pressureBar !== undefined && (
        <NumberInput size="md" label="Pressure (bar)" value={bar} onChange={setBar} hideControls />
      )}
      <div className={styles.reallyActs}>
        <Button type="submit" size="md" disabled={!sound}>
          Keep
        </Button>
        {coupon.pressed && (
          <button type="button" className="link-button" onClick={() => onKeep(null)}>
            As planned after all
          </button>
        )}
      </div>
    </form>
  );
}
