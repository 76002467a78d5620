import { Select, Textarea } from '@mantine/core';
import type { Recipe } from '#contract';
import { FigureField, TemperatureField, WordsField } from '../frame/index.js';
import { pressureNames, toLines } from '../words/index.js';
import styles from './recipe-fields.module.css';

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
  return (
    <fieldset className={styles.recipe}>
      <legend>Recipe</legend>
      <p className="soft">
        What the makers of blank, ink and press say comes first. At these temperatures platen and piece burn
        at once, and hotter or longer gives more fumes: gloves and fresh air.
      </p>
      <div className={styles.fields}>
        <TemperatureField
          label="Platen"
          valueC={recipe.platenC}
          error={complaint('recipe.platenC')}
          onChange={(platenC) => platenC !== null && onChange({ ...recipe, platenC })}
        />
        <FigureField
          label="Time"
          unit="s"
          unitName="seconds"
          value={recipe.dwellSeconds}
          error={complaint('recipe.dwellSeconds')}
          onChange={(seconds) => seconds !== null && onChange({ ...recipe, dwellSeconds: seconds })}
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
