import { NumberInput } from '@mantine/core';

/** A figure with its unit; null while the field is empty. What is out of bounds is said at the field, not changed. */
export function FigureField(props: {
  readonly label: string;
  /** Said aloud after the label, where the sign of the unit would not be: 'seconds'. */
  readonly unitName?: string;
  readonly unit?: string;
  readonly value: number | null;
  onChange(value: number | null): void;
  readonly min?: number;
  readonly max?: number;
  readonly decimals?: number;
  readonly step?: number;
  readonly description?: string | undefined;
  readonly placeholder?: string | undefined;
  readonly error?: string | undefined;
  readonly required?: boolean;
}) {
  const { label, unit, unitName, value, min, max, decimals = 0 } = props;
  const off =
    value !== null && ((min !== undefined && value < min) || (max !== undefined && value > max))
      ? boundsText(min, max, unit)
      : undefined;
  return (
    <NumberInput
      size="md"
      label={label}
      aria-label={unitName ? `${label}, ${unitName}` : label}
      description={props.description}
      placeholder={props.placeholder}
      error={props.error ?? off}
      required={props.required ?? false}
      value={value ?? ''}
      onChange={(typed) => {
        const number = typeof typed === 'number' ? typed : Number.parseFloat(typed);
        const next = Number.isFinite(number) ? number : null;
        if (next !== value) props.onChange(next);
      }}
      decimalScale={decimals}
      allowDecimal={decimals > 0}
      step={props.step ?? 1}
      clampBehavior="none"
      {...(unit ? { suffix: `\u00a0${unit}` } : {})}
    />
  );
}

const boundsText = (min: number | undefined, max: number | undefined, unit = ''): string => {
  const text = (value: number) => `${String(value).replace('-', '\u2212')}${unit && `\u00a0${unit}`}`;
  if (min === undefined) return `At most ${text(max ?? 0)}.`;
  if (max === undefined) return `At least ${text(min)}.`;
  return `From ${text(min)} to ${text(max)}.`;
};
