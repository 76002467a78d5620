import { NumberInput } from '@mantine/core';
import type { LadderPlanFacts } from '#contract';
import { fahrenheitToCelsius } from '#craft/units';
import { usePreferences } from '../../frame/index.js';
import { toDegrees } from '../../words/index.js';
import styles from './plan.module.css';
import type { LadderChoice } from './plan-order.js';
import { RangeField } from './range-field.js';

/** What stays as it is, and what the blank's maker allows; both proposed by the shop until somebody says otherwise. */
export function StaysFields(props: {
  readonly choice: LadderChoice;
  readonly plan: LadderPlanFacts | null;
  onChange(change: Partial<Pick<LadderChoice, 'start' | 'limits'>>): void;
}) {
  const { choice, plan, onChange } = props;
  const { temperatureUnit: unit } = usePreferences();
  const start = choice.start ?? plan?.start ?? null;
  const limits =
    choice.limits ?? (plan ? { platenC: plan.limits.platenC, dwellSeconds: plan.limits.dwellSeconds } : null);
  if (!start)
    return <p className={styles.aside}>Choose a blank first: its recipe is where a ladder starts.</p>;
  const varies = new Set(choice.factors);
  return (
    <div className={styles.stays}>
      <p className={styles.aside}>Where the ladder starts: the blank’s recipe, unless you say otherwise.</p>
      <div className={styles.two}>
        {!varies.has('temperature') && (
          <NumberInput
            size="md"
            label={`True temperature (°${unit})`}
            value={Math.round(toDegrees(start.platenC, unit))}
            onChange={(typed) => {
              if (typeof typed !== 'number' || typed === Math.round(toDegrees(start.platenC, unit))) return;
              const platenC = unit === 'C' ? typed : Math.round(10 * fahrenheitToCelsius(typed)) / 10;
              onChange({ start: { ...start, platenC } });
            }}
          />
        )}
        {!varies.has('time') && (
          <NumberInput
            size="md"
            label="Time (s)"
            value={start.dwellSeconds}
            onChange={(typed) => {
              if (typeof typed === 'number' && typed >= 1)
                onChange({ start: { ...start, dwellSeconds: typed } });
            }}
          />
        )}
        {!varies.has('pressure') && (
          <NumberInput
            size="md"
            label="Pressure on the blank (bar)"
            placeholder="not known"
            decimalScale={2}
            value={start.pressureBar ?? ''}
            onChange={(typed) => {
              const { pressureBar: _, ...rest } = start;
              onChange({
                start: typeof typed === 'number' && typed > 0 ? { ...rest, pressureBar: typed } : rest,
              });
            }}
          />
        )}
      </div>
      {limits && (
        <>
          <p className={styles.aside}>What the blank’s maker allows. Nothing beyond it is planned.</p>
          {(['temperature', 'time'] as const).map((kind) => {
            const key = kind === 'temperature' ? 'platenC' : 'dwellSeconds';
            return (
              <RangeField
                key={kind}
                kind={kind}
                label={kind === 'temperature' ? 'Temperature the maker allows' : 'Time the maker allows'}
                range={choice.limits?.[key] ?? [null, null]}
                proposed={limits[key]}
                onChange={([low, high]) =>
                  onChange({
                    limits: { ...limits, [key]: [low ?? limits[key][0], high ?? limits[key][1]] },
                  })
                }
              />
            );
          })}
        </>
      )}
    </div>
  );
}
