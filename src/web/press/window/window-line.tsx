import type { Ladder, WindowFieldFacts } from '#contract';
import { LineChart } from '../../charts/index.js';
import { usePreferences } from '../../frame/index.js';
import { percentText, secondsText, temperatureText } from '../../words/index.js';
import { CouponMark } from '../coupon-mark.js';
import { couponVerdict } from '../coupon-verdict.js';
import { barText, pressedStep } from '../words.js';
import { degreeTicks } from './degree-ticks.js';
import { levelsOf } from './levels.js';
import { shareAlong } from './share-along.js';
import styles from './window.module.css';
import { reach, WindowKey } from './window-picture.js';

/** Rows of coupons over the curve, each as high as a mark with its number. */
const most = 3;
const rowPixels = 40;
const heightPixels = 380;
/** So that a share of 1 ends just under them; 58 pixels of the chart are its axis. */
const yMax = 1.04 / (1 - (most * rowPixels) / (heightPixels - 58));

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
    return { coupon, at: isTime ? step.dwellSeconds : step.platenC, verdict: couponVerdict(coupon, window) };
  });
  const x = reach([...points.map(([at]) => at), ...coupons.map(({ at }) => at)], 0.06);
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
          max: yMax,
          label: 'How likely it is that all is well',
          ticks: [0, 0.5, 0.9],
          text: (value) => percentText(value),
        }}
        lines={[]}
        heightPixels={heightPixels}
        over={(place) => {
          const [left, top] = place(x.min, yMax);
          const [right, bottom] = place(x.max, 0);
          const line = points.map(([at, share]) => place(at, share));
          const places = coupons.map(({ at }) => place(at, 0)[0]);
          const levels = levelsOf(places, 25, most);
          const levelY = (level: number) => top + rowPixels * (most - level) - 25;
          const [, high] = place(middle, 1);
          return (
            <>
              <rect x={left} y={top} width={right - left} height={bottom - top} fill="#6f6f6f" />
              <path
                d={`M${line.map(([px, py]) => `${px.toFixed(1)} ${py.toFixed(1)}`).join('L')}L${(line.at(-1)?.[0] ?? left).toFixed(1)} ${bottom}L${(line[0]?.[0] ?? left).toFixed(1)} ${bottom}Z`}
                fill="#d8d8d8"
                stroke="#fff"
                strokeWidth={1.4}
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
                  cy={levelY(0)}
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
                  below
                  x={places[i] ?? 0}
                  y={levelY(levels[i] ?? 0)}
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
