import type { Ladder, WindowFieldFacts } from '#contract';
import { type Axis, LineChart } from '../../charts/index.js';
import { usePreferences } from '../../frame/index.js';
import { secondsText, temperatureText } from '../../words/index.js';
import { CouponMark } from '../coupon-mark.js';
import { couponVerdict, verdictWords } from '../coupon-verdict.js';
import { pressedStep } from '../words.js';
import { contourAreas, shareLevels } from './contours.js';
import { degreeTicks } from './degree-ticks.js';
import { RecipeMark } from './recipe-mark.js';
import { spreadOut } from './spread-out.js';
import styles from './window.module.css';

/** Neutral greys, the lighter the surer: coupons are judged on them. */
const ground = '#6f6f6f';
const greys: Record<number, string> = { 0.1: '#8c8c8c', 0.5: '#b0b0b0', 0.9: '#d8d8d8' };

/** The window over time and temperature: where all is well, the coupons spent, the recipe with what it bears. */
export function WindowPicture({
  ladder,
  field,
}: {
  readonly ladder: Ladder;
  readonly field: WindowFieldFacts;
}) {
  const { temperatureUnit } = usePreferences();
  const { window } = ladder;
  if (!window) return null;
  const coupons = ladder.coupons.map((coupon) => ({
    coupon,
    verdict: couponVerdict(coupon, window),
    step: pressedStep(coupon),
  }));
  const x: Axis = {
    ...reach([...field.dwellSeconds, ...coupons.map(({ step }) => step.dwellSeconds)], 0.05),
    label: 'Time (s)',
  };
  const yReach = reach([...field.platenC, ...coupons.map(({ step }) => step.platenC)], 0.06);
  const y: Axis = {
    ...yReach,
    label: `True temperature (°${temperatureUnit})`,
    ticks: degreeTicks(yReach.min, yReach.max, 7, temperatureUnit),
    text: (value) => temperatureText(value, temperatureUnit).replace(/\u00a0.*/, ''),
  };
  const { recipe } = window;
  return (
    <figure className={styles.figure}>
      <LineChart
        label={`Time against temperature. All is well in nine of ten likely worlds round ${temperatureText(recipe.platenC, temperatureUnit)} and ${secondsText(recipe.dwellSeconds)}. ${coupons
          .map(
            ({ coupon, verdict, step }) =>
              `Coupon ${coupon.number}, ${temperatureText(step.platenC, temperatureUnit)} ${secondsText(step.dwellSeconds)}: ${verdict ? verdictWords[verdict] : 'not read'}`,
          )
          .join('. ')}.`}
        x={x}
        y={y}
        lines={[]}
        heightPixels={430}
        over={(place) => {
          const [left, top] = place(x.min, y.max);
          const [right, bottom] = place(x.max, y.min);
          const spread = spreadOut(
            coupons.map(({ step }) => place(step.dwellSeconds, step.platenC)),
            24,
          );
          return (
            <>
              <rect x={left} y={top} width={right - left} height={bottom - top} fill={ground} />
              {contourAreas(field, place).map(({ level, path }) => (
                <path
                  key={level}
                  d={path}
                  fill={greys[level]}
                  fillRule="evenodd"
                  stroke="#fff"
                  strokeWidth={level === 0.9 ? 1.8 : 0.8}
                  strokeDasharray={level === 0.9 ? undefined : level === 0.5 ? '6 4' : '1.5 4'}
                />
              ))}
              {coupons.map(({ coupon, verdict }, i) => {
                const [cx = 0, cy = 0] = spread[i] ?? [];
                return (
                  <CouponMark
                    key={coupon.number}
                    number={coupon.number}
                    black={coupon.seenHex[0] ?? null}
                    leftOut={coupon.leftOut}
                    verdict={verdict}
                    x={cx}
                    y={cy}
                  />
                );
              })}
              <NextMarks ladder={ladder} place={place} within={{ x, y }} />
              <RecipeMark
                middle={place(recipe.dwellSeconds, recipe.platenC)}
                left={place(recipe.dwellSeconds - recipe.tolerance.shorterSeconds, recipe.platenC)[0]}
                right={place(recipe.dwellSeconds + recipe.tolerance.longerSeconds, recipe.platenC)[0]}
                bottom={place(recipe.dwellSeconds, recipe.platenC - recipe.tolerance.coolerK)[1]}
                top={place(recipe.dwellSeconds, recipe.platenC + recipe.tolerance.hotterK)[1]}
              />
            </>
          );
        }}
      />
      <WindowKey withNext={!window.isSure && window.next.length > 0} withShares />
    </figure>
  );
}

/** The coupon that would tell most, as an empty dashed ring. */
function NextMarks(props: {
  readonly ladder: Ladder;
  place(x: number, y: number): readonly [number, number];
  readonly within: { readonly x: Axis; readonly y: Axis };
}) {
  const { window } = props.ladder;
  const next = window && !window.isSure ? window.next[0] : undefined;
  if (!next) return null;
  const { dwellSeconds, platenC } = next.step;
  const { x, y } = props.within;
  if (dwellSeconds < x.min || dwellSeconds > x.max || platenC < y.min || platenC > y.max) return null;
  const [cx, cy] = props.place(dwellSeconds, platenC);
  return <circle cx={cx} cy={cy} r={15} fill="none" stroke="#111" strokeWidth={2} strokeDasharray="4 3" />;
}

export function WindowKey({
  withNext,
  withShares = false,
  isLine = false,
}: {
  readonly withNext: boolean;
  readonly withShares?: boolean;
  readonly isLine?: boolean;
}) {
  return (
    <figcaption className={styles.key}>
      {withShares && (
        <span>
          <span className={styles.shares} aria-hidden="true">
            {[ground, ...shareLevels.map((level) => greys[level])].map((grey) => (
              <i key={grey} style={{ background: grey }} />
            ))}
          </span>
          all is well in hardly any · 1 · 5 · 9 of 10 likely worlds
        </span>
      )}
      {(['under', 'right', 'over'] as const).map((verdict) => (
        <span key={verdict}>
          <svg width={20} height={20} viewBox="-12 -12 24 24" aria-hidden="true">
            <CouponMark black="#333333" verdict={verdict} x={0} y={0} />
          </svg>
          {verdictWords[verdict]}
        </span>
      ))}
      <span>
        <svg width={26} height={20} viewBox="-13 -10 26 20" aria-hidden="true">
          <rect x={-13} y={-10} width={26} height={20} fill="#b0b0b0" />
          {isLine ? (
            <>
              <path d="M0 10V-8" stroke="#111" strokeWidth={2.4} />
              <path d="M-8 10V-8M8 10V-8" stroke="#111" strokeWidth={1.2} strokeDasharray="4 3" />
            </>
          ) : (
            <RecipeMark middle={[0, 0]} left={-10} right={10} top={-7} bottom={7} />
          )}
        </svg>
        {isLine
          ? 'the recipe, and what it surely bears'
          : 'the recipe, and what it surely bears in time or in heat'}
      </span>
      {withNext && (
        <span>
          <svg width={20} height={20} viewBox="-10 -10 20 20" aria-hidden="true">
            <circle r={7.5} fill="none" stroke="currentColor" strokeWidth={1.8} strokeDasharray="4 3" />
          </svg>
          worth pressing next
        </span>
      )}
    </figcaption>
  );
}

export function reach(values: readonly number[], beyond: number): { min: number; max: number } {
  const [min, max] = [Math.min(...values), Math.max(...values)];
  const room = beyond * (max - min || 1);
  return { min: min - room, max: max + room };
}
