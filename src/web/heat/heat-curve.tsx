import { SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import type { HeatLook } from '#contract';
import { LineChart, type Stroke } from '../charts/index.js';
import { usePreferences } from '../frame/index.js';
import { secondsText, sizeK, temperatureText, toDegrees } from '../words/index.js';
import { valueAt, within } from './course.js';
import styles from './heat.module.css';

const looks: Record<string, { name: string; stroke: Stroke; colour: string; widthPixels: number }> = {
  dye: { name: 'the dye', stroke: 'whole', colour: 'var(--dye)', widthPixels: 3.4 },
  platen: { name: 'platen', stroke: 'dashed', colour: 'var(--ink-soft)', widthPixels: 1.6 },
  middle: { name: 'middle', stroke: 'dotted', colour: 'var(--accent)', widthPixels: 2.2 },
  back: { name: 'back', stroke: 'dashed', colour: 'var(--accent)', widthPixels: 1.8 },
};

/** Temperatures over the time of the press, the dye's place before all others with its band. */
export function HeatCurve({ look }: { readonly look: HeatLook }) {
  const { temperatureUnit: unit } = usePreferences();
  const [far, setFar] = useState(false);
  const { seconds, courses, phases, facts } = look;
  const closed = phases.find((phase) => phase.name === 'press' || phase.name === 'bake') ?? phases[0];
  const end = seconds.at(-1) ?? 1;
  const from = closed?.fromSeconds ?? 0;
  const pressEnd = closed?.toSeconds ?? end;
  const until = far ? end : Math.min(end, pressEnd + Math.max(5, (pressEnd - from) * 0.12));
  const minutes = until > 300;
  const dye = courses[0];
  const all = courses.flatMap((course) => course.celsius);
  const top = Math.ceil((Math.max(...all) + 12) / 20) * 20;
  const bottom = Math.min(20, Math.floor(Math.min(...all) / 10) * 10);
  const arrives = facts.arrivesSeconds?.value;
  const arrivesAt =
    arrives !== undefined && from + arrives <= pressEnd && dye
      ? ([from + arrives, toDegrees(valueAt(seconds, dye.celsius, from + arrives), unit)] as const)
      : null;
  const points = (celsius: readonly number[]) =>
    within(seconds, celsius, until).map(([x, y]) => [x, toDegrees(y, unit)] as const);
  const shownPhases = phases.filter((phase) => phase.fromSeconds < until);
  return (
    <div className={styles.curve}>
      <SegmentedControl
        size="sm"
        aria-label="How far the curve is drawn"
        value={far ? 'far' : 'press'}
        onChange={(value) => setFar(value === 'far')}
        data={[
          { value: 'press', label: 'In the press' },
          { value: 'far', label: 'Until it has cooled' },
        ]}
      />
      <LineChart
        label={`Temperature over time. ${dye ? `The dye’s place is hottest at ${temperatureText(facts.dyePeakC.value, unit)}. ` : ''}${shownPhases.map((phase) => `${phase.name} from ${secondsText(phase.fromSeconds)} to ${secondsText(phase.toSeconds)}`).join(', ')}.`}
        x={{
          min: 0,
          max: until,
          label: minutes ? 'Time, minutes' : 'Time, seconds',
          ...(minutes ? { ticks: minuteTicks(until), text: (value: number) => String(value / 60) } : {}),
        }}
        y={{
          min: toDegrees(bottom, unit),
          max: toDegrees(top, unit),
          label: `Temperature, °${unit}; the shade holds nine of ten cases`,
        }}
        bands={courses.flatMap((course, i) =>
          i === 0 && course.low && course.high
            ? [
                {
                  colour: 'var(--dye)',
                  points: bandPoints(seconds, course.low, course.high, until).map(
                    ([x, low, high]) => [x, toDegrees(low, unit), toDegrees(high, unit)] as const,
                  ),
                },
              ]
            : [],
        )}
        lines={[...courses].reverse().map((course) => {
          const how = looks[course.name] ?? { ...looks.back, name: course.name };
          return {
            name: how.name ?? course.name,
            points: points(course.celsius),
            stroke: how.stroke ?? 'whole',
            colour: how.colour ?? 'var(--ink)',
            widthPixels: how.widthPixels ?? 2,
          };
        })}
        levels={far ? [{ y: toDegrees(facts.touchC, unit), words: 'no burn below' }] : []}
        heightPixels={340}
        over={(place) => (
          <>
            {shownPhases.slice(1).map((phase) => {
              const [x, y0] = place(phase.fromSeconds, toDegrees(bottom, unit));
              const [, y1] = place(phase.fromSeconds, toDegrees(top, unit));
              return <line key={phase.name} x1={x} x2={x} y1={y0} y2={y1} className={styles.phaseLine} />;
            })}
            {shownPhases.map((phase) => {
              const [x0, y] = place(phase.fromSeconds, toDegrees(top, unit));
              const [x1] = place(Math.min(until, phase.toSeconds), toDegrees(top, unit));
              return (
                x1 - x0 > phase.name.length * 8 && (
                  <text
                    key={phase.name}
                    x={(x0 + x1) / 2}
                    y={y + 14}
                    textAnchor="middle"
                    className={styles.phaseName}
                  >
                    {phase.name}
                  </text>
                )
              );
            })}
            {arrivesAt && (
              <circle
                cx={place(...arrivesAt)[0]}
                cy={place(...arrivesAt)[1]}
                r={6}
                className={styles.arrival}
              />
            )}
          </>
        )}
      />
      <p className={styles.aside}>
        {arrivesAt ? `Ring: the dye’s place is within ${sizeK(10, unit)} of the platen. ` : ''}
        Phases:{' '}
        {phases
          .map(
            (phase) => `${phase.name}, ${secondsText(phase.fromSeconds)} to ${secondsText(phase.toSeconds)}`,
          )
          .join('; ')}
        .
      </p>
    </div>
  );
}

function minuteTicks(until: number): number[] {
  const step = until > 2400 ? 600 : until > 900 ? 300 : until > 480 ? 120 : 60;
  return Array.from({ length: Math.floor(until / step) + 1 }, (_, i) => i * step);
}

const bandPoints = (
  seconds: readonly number[],
  low: readonly number[],
  high: readonly number[],
  until: number,
): [number, number, number][] => {
  const highs = within(seconds, high, until);
  return within(seconds, low, until).map(([x, y], i) => [x, y, highs[i]?.[1] ?? y]);
};
