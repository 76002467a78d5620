import type { FactorKindName, LadderPlanFacts } from '#contract';
import { type Axis, LineChart, roundTicks } from '../../charts/index.js';
import { usePreferences } from '../../frame/index.js';
import { type TemperatureUnit, temperatureText } from '../../words/index.js';
import { degreeTicks } from '../window/degree-ticks.js';
import { levelsOf } from '../window/levels.js';
import styles from './plan.module.css';

/** A disc with a little air, and how many may stand one above the other. */
const discPixels = 27;
const mostLevels = 4;

type PlannedCoupon = LadderPlanFacts['coupons'][number];

/** The coupons where they will be pressed; each dot bears its place in the order, likes lie beside one another. */
export function PlanPicture({ plan }: { readonly plan: LadderPlanFacts }) {
  const { temperatureUnit } = usePreferences();
  const [first = 'time', second] = inOrder(plan.factors);
  const places = plan.coupons.map((coupon) => ({
    coupon,
    x: settingOf(coupon, first),
    y: second ? settingOf(coupon, second) : 0,
    nth: plan.coupons.filter((one) => one.alike === coupon.alike).indexOf(coupon),
    of: plan.coupons.filter((one) => one.alike === coupon.alike).length,
  }));
  const x = axisOf(
    first,
    places.map((one) => one.x),
    temperatureUnit,
  );
  const y: Axis = second
    ? axisOf(
        second,
        places.map((one) => one.y),
        temperatureUnit,
      )
    : { min: -1, max: 1, label: ' ', ticks: [] };
  return (
    <figure className={styles.picture}>
      <LineChart
        label={`The plan: ${plan.words} ${plan.coupons
          .map(
            (one) =>
              `${one.number}: ${temperatureText(one.step.platenC, temperatureUnit)}, ${one.step.dwellSeconds} s`,
          )
          .join('; ')}.`}
        x={x}
        y={y}
        lines={[]}
        heightPixels={second ? 300 : 180}
        over={(place) =>
          places.map(({ coupon, x: px, y: py, nth, of }, i) => {
            const [cx, cy] = place(px, py);
            // Likes lie side by side in a plane; on a line all that would touch stand one above the other.
            const shift = (nth - (of - 1) / 2) * discPixels;
            const levels = levelsOf(
              places.map((one) => place(one.x, 0)[0]),
              discPixels,
              mostLevels,
            );
            const up = ((mostLevels - 1) / 2 - (levels[i] ?? 0)) * discPixels;
            return (
              <g
                key={coupon.number}
                transform={second ? `translate(${cx + shift} ${cy})` : `translate(${cx} ${cy + up})`}
              >
                <circle r={12.5} className={styles.dot} data-alike={of > 1 || undefined} />
                <text y={5} textAnchor="middle" className={styles.dotNumber}>
                  {coupon.number}
                </text>
              </g>
            );
          })
        }
      />
      <figcaption className="soft">
        Each disc is a coupon, numbered in the order to press. Those with a thick rim that lie together are
        pressed alike: they show how well the press repeats itself.
      </figcaption>
    </figure>
  );
}

const inOrder = (factors: readonly FactorKindName[]): FactorKindName[] =>
  (['time', 'temperature', 'pressure'] as const).filter((kind) => factors.includes(kind));

const settingOf = ({ step }: PlannedCoupon, kind: FactorKindName): number =>
  kind === 'time' ? step.dwellSeconds : kind === 'temperature' ? step.platenC : (step.pressureBar ?? 0);

function axisOf(kind: FactorKindName, values: readonly number[], unit: TemperatureUnit): Axis {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = 0.14 * (high - low || 1);
  const [min, max] = [low - room, high + room];
  if (kind === 'temperature') {
    return {
      min,
      max,
      label: `True temperature (°${unit})`,
      ticks: degreeTicks(min, max, 6, unit),
      text: (value) => temperatureText(value, unit).replace(/\u00a0.*/, ''),
    };
  }
  return {
    min,
    max,
    label: kind === 'time' ? 'Time (s)' : 'Pressure on the blank (bar)',
    ticks: roundTicks(min, max, 7),
  };
}
