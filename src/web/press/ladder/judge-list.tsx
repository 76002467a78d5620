import { useId } from 'react';
import type { Ladder } from '#contract';
import { useNoteCoupons } from '../../api/index.js';
import { ProblemNote, usePreferences } from '../../frame/index.js';
import type { LadderCoupon } from '../ladder-state.js';
import { pressedStep, stepText } from '../words.js';
import styles from './judge.module.css';
import { BlackSample, EdgeSample } from './samples.js';

/** Each coupon judged by eye: its black, its edges. Kept word by word. */
export function JudgeList({ ladder }: { readonly ladder: Ladder }) {
  const noting = useNoteCoupons(ladder.sheetId);
  return (
    <div className={styles.judge}>
      <p>
        In daylight, beside something truly grey. Is the black greenish, neutral or brownish? Are small
        letters crisp or soft? What was measured counts more than what is said here.
      </p>
      {noting.error && <ProblemNote error={noting.error} />}
      <ul>
        {ladder.coupons.map((coupon) => (
          <Judged
            key={coupon.number}
            coupon={coupon}
            onSay={(byEye) => noting.mutate({ coupons: [{ number: coupon.number, byEye }] })}
          />
        ))}
      </ul>
    </div>
  );
}

const blacks = [
  { value: 'green', name: 'green' },
  { value: 'neutral', name: 'neutral' },
  { value: 'brown', name: 'brown' },
] as const;
const edges = [
  { value: 'crisp', name: 'crisp' },
  { value: 'soft', name: 'soft' },
] as const;

function Judged({
  coupon,
  onSay,
}: {
  readonly coupon: LadderCoupon;
  onSay(byEye: LadderCoupon['byEye']): void;
}) {
  const { temperatureUnit } = usePreferences();
  const said = coupon.byEye ?? {};
  return (
    <li className={styles.coupon}>
      <p className={styles.which}>
        <span className={styles.number}>{coupon.number}</span>
        <span className="soft figures">{stepText(pressedStep(coupon), coupon.setC, temperatureUnit)}</span>
      </p>
      <Choice
        legend={`Black of coupon ${coupon.number}`}
        short="Black"
        options={blacks}
        value={said.black}
        draw={(value) => <BlackSample black={value} />}
        onPick={(black) => onSay({ ...said, black })}
      />
      <Choice
        legend={`Edges of coupon ${coupon.number}`}
        short="Edges"
        options={edges}
        value={said.edges}
        draw={(value) => <EdgeSample edges={value} />}
        onPick={(edge) => onSay({ ...said, edges: edge })}
      />
      {(said.black !== undefined || said.edges !== undefined) && (
        <button
          type="button"
          className="link-button"
          aria-label={`Take back what was said of coupon ${coupon.number}`}
          onClick={() => onSay(null)}
        >
          Take it back
        </button>
      )}
    </li>
  );
}

function Choice<T extends string>(props: {
  readonly legend: string;
  readonly short: string;
  readonly options: readonly { readonly value: T; readonly name: string }[];
  readonly value: T | undefined;
  draw(value: T): React.ReactNode;
  onPick(value: T): void;
}) {
  const id = useId();
  return (
    <fieldset className={styles.choice}>
      <legend>
        <span className="said-only">{props.legend}</span>
        <span aria-hidden="true">{props.short}</span>
      </legend>
      {props.options.map((option) => (
        <label key={option.value}>
          <input
            type="radio"
            name={id}
            value={option.value}
            checked={props.value === option.value}
            onChange={() => props.onPick(option.value)}
          />
          <span className={styles.option}>
            {props.draw(option.value)}
            {option.name}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
