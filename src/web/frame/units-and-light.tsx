import { useId } from 'react';
import type { ShopPreferences } from '#contract';
import { useSavePreferences } from '../api/index.js';
import { usePreferences } from './preferences.js';
import styles from './units-and-light.module.css';

const choices = {
  lengthUnit: {
    label: 'Lengths',
    options: [
      ['mm', 'mm', 'millimetres'],
      ['in', 'in', 'inches'],
    ],
  },
  temperatureUnit: {
    label: 'Temperatures',
    options: [
      ['C', '°C', 'Celsius'],
      ['F', '°F', 'Fahrenheit'],
    ],
  },
  theme: {
    label: 'Light',
    options: [
      ['auto', 'Auto', 'as this device has it'],
      ['light', 'Light', 'light'],
      ['dark', 'Dark', 'dark'],
    ],
  },
} as const;

/** Kept in the shop, so every device that looks at it agrees. */
export function UnitsAndLight() {
  const preferences = usePreferences();
  const save = useSavePreferences();
  const id = useId();
  return (
    <div className={styles.all}>
      {(Object.keys(choices) as (keyof typeof choices)[]).map((key) => (
        <fieldset key={key} className={styles.one}>
          <legend>{choices[key].label}</legend>
          {choices[key].options.map(([value, text, said]) => (
            <label key={value}>
              <input
                type="radio"
                name={`${id}-${key}`}
                checked={preferences[key] === value}
                onChange={() => save.mutate({ [key]: value } as Partial<ShopPreferences>)}
                aria-label={said}
              />
              <span>{text}</span>
            </label>
          ))}
        </fieldset>
      ))}
    </div>
  );
}
