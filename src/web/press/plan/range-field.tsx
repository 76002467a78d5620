import { NumberInput } from '@mantine/core';
import type { FactorKindName } from '#contract';
import { fahrenheitToCelsius } from '#craft/units';
import { usePreferences } from '../../frame/index.js';
import { toDegrees } from '../../words/index.js';
import styles from './plan.module.css';
import type { Range } from './plan-order.js';

const names: Record<FactorKindName, string> = {
  time: 'Time',
  temperature: 'True temperature',
  pressure: 'Pressure on the blank',
};

/** From … to …, in the person's unit. What is not typed is shown as the shop proposes it. */
export function RangeField(props: {
  readonly kind: FactorKindName;
  readonly label?: string;
  readonly range: Range;
  readonly proposed: readonly [number, number] | null;
  onChange(range: Range): void;
}) {
  const { kind, range, proposed, onChange } = props;
  const { temperatureUnit } = usePreferences();
  const isDegrees = kind === 'temperature';
  const show = (value: number) => (isDegrees ? Math.round(toDegrees(value, temperatureUnit)) : value);
  const take = (value: number) =>
    isDegrees && temperatureUnit === 'F' ? Math.round(10 * fahrenheitToCelsius(value)) / 10 : value;
  const unit = kind === 'time' ? 's' : kind === 'pressure' ? 'bar' : `°${temperatureUnit}`;
  const label = props.label ?? names[kind];
  return (
    <fieldset className={styles.range}>
      <legend>{label}</legend>
      {([0, 1] as const).map((end) => {
        const value = range[end] ?? proposed?.[end];
        return (
          <NumberInput
            key={end}
            size="md"
            aria-label={`${label}, ${end === 0 ? 'lowest' : 'highest'}, ${unit}`}
            value={value === undefined ? '' : show(value)}
            placeholder={end === 0 ? 'lowest' : 'highest'}
            suffix={` ${unit}`}
            min={0}
            allowNegative={false}
            step={kind === 'pressure' ? 0.1 : kind === 'time' ? 5 : 1}
            decimalScale={kind === 'pressure' ? 2 : 0}
            onChange={(typed) => {
              const next = typeof typed === 'number' ? take(typed) : null;
              // Our own figure coming back is no word of the person's.
              if (next !== null && value !== undefined && show(next) === show(value)) return;
              onChange(end === 0 ? [next, range[1]] : [range[0], next]);
            }}
          />
        );
      })}
    </fieldset>
  );
}
