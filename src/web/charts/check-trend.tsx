import type { PathCheck } from '#contract';
import { dayText } from '../words/index.js';
import { LineChart } from './line-chart.js';

/**
 * The checks of a path over time: mean difference, with a stem up to what 95 % of the colours stay within. Evenly
 * spaced, since some follow within minutes and some after months; the newest may come first or last.
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
  const top = Math.max(
    3,
    last.expectedMean,
    ...inTime.map((check) => Math.max(check.overall.p95, check.neutrals?.mean ?? 0)),
  );
  const day = (i: number) => {
    const check = inTime[i];
    if (!check || dayText(check.createdAt) === dayText(inTime[i - 1]?.createdAt ?? '')) return '';
    return new Date(check.createdAt).toLocaleDateString(undefined, { day: 'numeric', month: 'short' });
  };
  const series = (value: (check: PathCheck) => number | undefined) =>
    inTime.flatMap((check, i): [number, number][] => {
      const y = value(check);
      return y === undefined ? [] : [[i, y]];
    });
  const neutrals = series((check) => check.neutrals?.mean);
  return (
    <LineChart
      label={`Checks over time. ${inTime.map((check) => `${dayText(check.createdAt)}: mean ${check.overall.mean.toFixed(1)}, 95 % within ${check.overall.p95.toFixed(1)} ΔE00`).join('. ')}.`}
      x={{
        min: -0.3,
        max: inTime.length - 0.7,
        label: 'Checks, oldest first',
        ticks: inTime.map((_, i) => i),
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
          const [x, yMean] = place(i, check.overall.mean);
          const [, yMost] = place(i, check.overall.p95);
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
