import type { Ladder, WindowFieldFacts } from '#contract';
import { LineChart } from '../../charts/index.js';
import { usePreferences } from '../../frame/index.js';
import { percentText, secondsText, temperatureText } from '../../words/index.js';
import { CouponMark } from '../coupon-mark.js';
import { couponVerdict } from '../coupon-verdict.js';
import { barText, pressedStep } from '../words.js';
import { degreeTicks } from './degree-ticks.js';
import { shareAlong } from './share-along.js';
import { spreadOut } from './spread-out.js';
import styles from './window.module.css';
import { reach, WindowKey } from './window-picture.js';

/** The window of a ladder that varied one thing: how likely it is, along time or temperature, that all is well. */
export function WindowLine({
  ladder,
  field,
  along,
}: {
  readonly ladder: Ladder;
  readonly field: WindowFieldFacts;
  readonly along: 'time' | 'temperature';
}) {
  const { temperatureUnit } = usePreferences();
  const { window } = ladder;
  if (!window) return null;
  const { recipe } = window;
  const isTime = along === 'time';
  const points = shareAlong(field, along, isTime ? recipe.platenC : recipe.dwellSeconds);
  const coupons = ladder.coupons.map((coupon) => {
    const step = pressedStep(coupon);
    return { coupon, at: isTime ? step.dwellSeconds : step.platenC, verdict: couponVerdict(coupon, field) };
  });
  const x = reach([...points.map(([at]) => at), ...coupons.map(({ at }) => at)], 0.03);
  const [middle, from, to] = isTime
    ? [
        recipe.dwellSeconds,
        recipe.dwellSeconds - recipe.tolerance.shorterSeconds,
        recipe.dwellSeconds + recipe.tolerance.longerSeconds,
      ]
    : [recipe.platenC, recipe.platenC - recipe.tolerance.coolerK, recipe.platenC + recipe.tolerance.hotterK];
  const next = window.isSure ? undefined : window.next[0]?.step;
  const fixed = isTime
    ? `at ${temperatureText(recipe.platenC, temperatureUnit)}`
    : `for ${secondsText(recipe.dwellSeconds)}`;
  return (
    <figure className={styles.figure}>
      <LineChart
        label={`How likely it is that all is well, ${fixed}, along ${along}. ${window.words}`}
        x={{
          ...x,
          label: isTime ? `Time (s), ${fixed}` : `True temperature (°${temperatureUnit}), ${fixed}`,
          ...(isTime
            ? {}
            : {
                ticks: degreeTicks(x.min, x.max, 7, temperatureUnit),
                text: (value: number) => temperatureText(value, temperatureUnit).replace(/\u00a0.*/, ''),
              }),
        }}
        y={{
          min: 0,
          max: 1.4,
          label: 'How likely it is that all is well',
          ticks: [0, 0.5, 0.9],
          text: (value) => percentText(value),
        }}
        lines={[]}
        heightPixels={330}
        over={(place) => {
          const [left, top] = place(x.min, 1.4);
          const [right, bottom] = place(x.max, 0);
          const line = points.map(([at, share]) => place(at, share));
          const spread = spreadOut(
            coupons.map(({ at }) => place(at, 1.22)),
            24,
          );
          const [, high] = place(middle, 1);
          return (
            <>
              <rect x={left} y={top} width={right - left} height={bottom - top} fill="#6f6f6f" />
              <path
                d={`M${line.map(([px, py]) => `${px.toFixed(1)} ${py.toFixed(1)}`).join('L')}L${(line.at(-1)?.[0] ?? left).toFixed(1)} ${bottom}L${(line[0]?.[0] ?? left).toFixed(1)} ${bottom}Z`}
                fill="#d8d8d8"
                stroke="#fff"
                strokeWidth={1.6}
              />
              <path
                d={`M${place(from, 0)[0]} ${bottom}V${high}M${place(to, 0)[0]} ${bottom}V${high}`}
                stroke="#111"
                strokeWidth={1.2}
                strokeDasharray="5 4"
              />
              <path d={`M${place(middle, 0)[0]} ${bottom}V${high - 6}`} stroke="#111" strokeWidth={2.4} />
              {next && (
                <circle
                  cx={place(isTime ? next.dwellSeconds : next.platenC, 0)[0]}
                  cy={place(middle, 1.22)[1]}
                  r={16}
                  fill="none"
                  stroke="#fff"
                  strokeWidth={2}
                  strokeDasharray="4 3"
                />
              )}
              {coupons.map(({ coupon, verdict }, i) => (
                <CouponMark
                  key={coupon.number}
                  number={coupon.number}
                  black={coupon.seenHex[0] ?? null}
                  leftOut={coupon.leftOut}
                  verdict={verdict}
                  x={spread[i]?.[0] ?? 0}
                  y={spread[i]?.[1] ?? 0}
                />
              ))}
            </>
          );
        }}
      />
      <WindowKey withNext={next !== undefined} isLine />
      {ladder.plan.factors.includes('pressure') && recipe.pressureBar !== null && (
        <p className="soft">At {barText(recipe.pressureBar)} on the blank.</p>
      )}
    </figure>
  );
}
