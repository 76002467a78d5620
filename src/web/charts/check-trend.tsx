import type { PathCheck } from '#contract';
import { dayText } from '../words/index.js';
import { LineChart } from './line-chart.js';

/**
 * The checks of a path over time: mean difference, with a stem up to what 95 % of the colours stay within. The newest
 * may come first or last.
 */
export function CheckTrend({
  checks,
  heightPixels,
}: {
  readonly checks: readonly PathCheck[];
  readonly heightPixels?: number;
}) {
  const inTime = [...checks].sort((one, two) => one.createdAt.localeCompare(two.createdAt));
  const last = inTime.at(-1);
  if (!last) return null;
  const times = inTime.map((check) => Date.parse(check.createdAt));
  const first = times[0] ?? 0;
  const end = times.at(-1) ?? first;
  const pad = Math.max(end - first, 86_400_000) * 0.08;
  const top = Math.max(3, ...inTime.map((check) => Math.max(check.overall.p95, check.neutrals?.mean ?? 0)));
  const day = (time: number) =>
    new Date(time).toLocaleDateString(undefined, { day: 'numeric', month: 'short' });
  const series = (value: (check: PathCheck) => number | undefined) =>
    inTime.flatMap((check, i): [number, number][] => {
      const y = value(check);
      return y === undefined ? [] : [[times[i] ?? first, y]];
    });
  const neutrals = series((check) => check.neutrals?.mean);
  return (
    <LineChart
      label={`Checks over time. ${inTime.map((check) => `${dayText(check.createdAt)}: mean ${check.overall.mean.toFixed(1)}, 95 % within ${check.overall.p95.toFixed(1)} ΔE00`).join('. ')}.`}
      x={{
        min: first - pad,
        max: end + pad,
        label: 'When it was checked',
        ticks: dayTicks(times),
        text: day,
      }}
      y={{ min: 0, max: top * 1.08, label: 'ΔE00 from what was asked' }}
      lines={[
        { name: 'mean', points: series((check) => check.overall.mean), dots: true, colour: 'var(--accent)' },
        ...(neutrals.length > 0
          ? [
              {
                name: 'greys',
                points: neutrals,
                dots: true,
                stroke: 'dashed' as const,
                colour: 'var(--ink-soft)',
              },
            ]
          : []),
      ]}
      levels={[{ y: last.expectedMean, words: `expected ${last.expectedMean.toFixed(1)}` }]}
      heightPixels={heightPixels ?? 220}
      over={(place) =>
        inTime.map((check, i) => {
          const [x, yMean] = place(times[i] ?? first, check.overall.mean);
          const [, yMost] = place(times[i] ?? first, check.overall.p95);
          return (
            <g key={check.id} stroke="var(--accent)" strokeWidth={1.6}>
              <line x1={x} x2={x} y1={yMean} y2={yMost} />
              <line x1={x - 5} x2={x + 5} y1={yMost} y2={yMost} />
            </g>
          );
        })
      }
    />
  );
}

/** Days far enough apart to be written side by side. */
function dayTicks(times: readonly number[]): number[] {
  const first = times[0] ?? 0;
  const span = (times.at(-1) ?? first) - first;
  const out: number[] = [];
  for (const time of times) {
    const before = out.at(-1);
    if (before === undefined || time - before > span / 5) out.push(time);
  }
  return out;
}
