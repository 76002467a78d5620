import type { PlatenCheck } from '#contract';
import { useRemovePlatenCheck } from '../api/index.js';
import { LineChart } from '../charts/index.js';
import { AskToRemove, ProblemNote, usePreferences } from '../frame/index.js';
import { dayText, differenceK, methodNames, temperatureText } from '../words/index.js';
import styles from './platen-page.module.css';

/** How a platen's offset went over time, and each check to be looked at again. */
export function CheckHistory(props: {
  readonly pressId: string;
  /** Newest first. */
  readonly checks: readonly PlatenCheck[];
  readonly shownId: string;
  onShow(id: string): void;
}) {
  const { checks, shownId } = props;
  const { temperatureUnit: unit } = usePreferences();
  const removing = useRemovePlatenCheck(props.pressId);
  const inTime = [...checks].reverse();
  const size = unit === 'C' ? 1 : 1.8;
  const lows = inTime.map((one) => one.offsetK.low * size);
  const highs = inTime.map((one) => one.offsetK.high * size);
  return (
    <section aria-labelledby="history-title" className={styles.section}>
      <h2 id="history-title">Over time</h2>
      {inTime.length > 1 && (
        <LineChart
          label={`True less set temperature over time. ${inTime.map((one) => `${dayText(one.createdAt)}: ${differenceK(one.offsetK.value, unit)}`).join('. ')}.`}
          x={{
            min: -0.3,
            max: inTime.length - 0.7,
            label: 'Checks, oldest first',
            ticks: inTime.map((_, i) => i),
            text: (i) => shortDay(inTime[i]?.createdAt, inTime[i - 1]?.createdAt),
          }}
          y={{
            min: Math.min(-4 * size, ...lows) - size,
            max: Math.max(4 * size, ...highs) + size,
            label: `True less set, °${unit}; stems: nine of ten cases`,
          }}
          lines={[
            {
              name: '',
              points: inTime.map((one, i) => [i, one.offsetK.value * size] as const),
              dots: true,
              colour: 'var(--accent)',
            },
          ]}
          levels={[{ y: 0, words: 'as it says' }]}
          heightPixels={260}
          over={(place) =>
            inTime.map((one, i) => {
              const [x, low] = place(i, one.offsetK.low * size);
              const [, high] = place(i, one.offsetK.high * size);
              return (
                <g key={one.id} stroke="var(--accent)" strokeWidth={1.6}>
                  <line x1={x} x2={x} y1={low} y2={high} />
                  <line x1={x - 5} x2={x + 5} y1={low} y2={low} />
                  <line x1={x - 5} x2={x + 5} y1={high} y2={high} />
                </g>
              );
            })
          }
        />
      )}
      <ul className={styles.history}>
        {checks.map((check, i) => (
          <li key={check.id}>
            <span className={styles.historyWords}>
              <strong>
                {dayText(check.createdAt)}
                {i === 0 && ', goes for recipes now'}
              </strong>
              <span className="soft">
                {differenceK(check.offsetK.value, unit)} true less set, at {temperatureText(check.setC, unit)}
                ; {methodNames[check.method]}
              </span>
            </span>
            {checks.length > 1 && (
              <button
                type="button"
                className="link-button"
                aria-pressed={check.id === shownId}
                onClick={() => props.onShow(check.id)}
              >
                {check.id === shownId ? 'Shown above' : 'Look at it'}
                <span className="said-only">: check of {dayText(check.createdAt)}</span>
              </button>
            )}
            <AskToRemove
              what={`the check of ${dayText(check.createdAt)}`}
              onRemove={() => removing.mutate(check.id)}
            />
          </li>
        ))}
      </ul>
      {removing.error && <ProblemNote error={removing.error} />}
    </section>
  );
}

/** The day; of several on one day, the hour. */
const shortDay = (iso: string | undefined, before: string | undefined): string =>
  iso === undefined
    ? ''
    : before !== undefined && dayText(iso) === dayText(before)
      ? new Date(iso).toLocaleTimeString(undefined, { hour: '2-digit', minute: '2-digit' })
      : new Date(iso).toLocaleDateString(undefined, { day: 'numeric', month: 'short' });
