import { fahrenheitToCelsius } from '#craft/units';
import { toDegrees, unitName } from '../words/index.js';
import { FigureField } from './figure-field.js';
import { usePreferences } from './preferences.js';

/** A temperature kept in °C, read and typed in the person's unit. */
export function TemperatureField(props: {
  readonly label: string;
  readonly valueC: number | null;
  onChange(valueC: number | null): void;
  readonly minC?: number;
  readonly maxC?: number;
  readonly description?: string | undefined;
  readonly placeholder?: string | undefined;
  readonly error?: string | undefined;
}) {
  const { temperatureUnit: unit } = usePreferences();
  const shown = (celsius: number) => Number(toDegrees(celsius, unit).toFixed(1));
  const value = props.valueC === null ? null : shown(props.valueC);
  return (
    <FigureField
      label={props.label}
      unitName={`degrees ${unitName[unit]}`}
      unit={`°${unit}`}
      decimals={1}
      value={value}
      description={props.description}
      placeholder={props.placeholder}
      error={props.error}
      {...(props.minC === undefined ? {} : { min: shown(props.minC) })}
      {...(props.maxC === undefined ? {} : { max: shown(props.maxC) })}
      onChange={(typed) => {
        if (typed === value) return;
        if (typed === null || unit === 'C') props.onChange(typed);
        else props.onChange(Number(fahrenheitToCelsius(typed).toFixed(2)));
      }}
    />
  );
}
