import { NumberInput } from '@mantine/core';
import { fromUnit, lengthDecimals, toUnit, unitName } from '../words/index.js';
import { usePreferences } from './preferences.js';

/** A length kept in millimetres, read and typed in the person's unit. */
export function LengthField(props: {
  readonly label: string;
  readonly valueMm: number;
  onChange(valueMm: number): void;
  readonly minMm?: number;
  readonly maxMm?: number;
  readonly stepMm?: number;
  readonly description?: string;
  readonly error?: string | undefined;
}) {
  const { lengthUnit: unit } = usePreferences();
  const decimals = lengthDecimals(unit) + 1;
  const shown = Number(toUnit(props.valueMm, unit).toFixed(decimals));
  return (
    <NumberInput
      size="md"
      label={props.label}
      description={props.description}
      error={props.error}
      aria-label={`${props.label}, ${unitName[unit]}`}
      value={shown}
      onChange={(value) => {
        const typed = typeof value === 'number' ? value : Number.parseFloat(value);
        // What is still being typed, and our own rounding coming back, change nothing.
        if (Number.isFinite(typed) && typed !== shown) props.onChange(fromUnit(typed, unit));
      }}
      decimalScale={decimals}
      step={unit === 'mm' ? (props.stepMm ?? 1) : 0.05}
      {...(props.minMm === undefined ? {} : { min: toUnit(props.minMm, unit) })}
      {...(props.maxMm === undefined ? {} : { max: toUnit(props.maxMm, unit) })}
      suffix={`\u00a0${unit}`}
      clampBehavior="blur"
    />
  );
}
