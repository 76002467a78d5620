import { NumberInput, Select, Textarea } from '@mantine/core';
import type { Recipe } from '#contract';
import { celsiusToFahrenheit, fahrenheitToCelsius } from '#craft/units';
import { usePreferences } from '../frame/index.js';
import { pressureNames, unitName } from '../words/index.js';
import styles from './setups.module.css';
import { toLines } from './use-record-form.js';
import { WordsField } from './words-field.js';

/** Temperature, time, pressure and steps. */
export function RecipeFields({
  recipe,
  onChange,
  complaint,
}: {
  readonly recipe: Recipe;
  onChange(recipe: Recipe): void;
  complaint(path: string): string | undefined;
}) {
  const { temperatureUnit: unit } = usePreferences();
  const shown = Number((unit === 'C' ? recipe.platenC : celsiusToFahrenheit(recipe.platenC)).toFixed(1));
  return (
    <fieldset className={styles.recipe}>
      <legend>Recipe</legend>
      <p className="soft">
        What the makers of blank, ink and press say comes first. At these temperatures platen and piece burn
        at once, and hotter or longer gives more fumes: gloves and fresh air.
      </p>
      <div className={styles.fields}>
        <NumberInput
          size="md"
          label="Platen"
          aria-label={`Platen, degrees ${unitName[unit]}`}
          suffix={` °${unit}`}
          decimalScale={1}
          value={shown}
          error={complaint('recipe.platenC')}
          onChange={(value) => {
            if (typeof value === 'number' && value !== shown)
              onChange({
                ...recipe,
                platenC: unit === 'C' ? value : Number(fahrenheitToCelsius(value).toFixed(2)),
              });
          }}
        />
        <NumberInput
          size="md"
          label="Time"
          aria-label="Time, seconds"
          suffix=" s"
          allowDecimal={false}
          value={recipe.dwellSeconds}
          error={complaint('recipe.dwellSeconds')}
          onChange={(value) => typeof value === 'number' && onChange({ ...recipe, dwellSeconds: value })}
        />
        <Select
          size="md"
          label="Pressure"
          data={Object.entries(pressureNames).map(([value, label]) => ({ value, label }))}
          value={recipe.pressure}
          allowDeselect={false}
          onChange={(value) => value && onChange({ ...recipe, pressure: value as Recipe['pressure'] })}
        />
      </div>
      <Textarea
        size="md"
        label="Steps"
        description="One a line"
        autosize
        minRows={3}
        defaultValue={recipe.steps.join('\n')}
        error={complaint('recipe.steps')}
        onChange={(e) => onChange({ ...recipe, steps: toLines(e.currentTarget.value) })}
      />
      <WordsField
        label="What it rests on"
        value={recipe.basis}
        error={complaint('recipe.basis')}
        onChange={(value) => onChange({ ...recipe, basis: value })}
      />
    </fieldset>
  );
}
