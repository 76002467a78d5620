import { Select } from '@mantine/core';
import { Link, useNavigate } from '@tanstack/react-router';
import type { Press, Recipe } from '#contract';
import { useRecipeOnPress } from '../api/index.js';
import { ProblemNote, Told, usePreferences } from '../frame/index.js';
import { temperatureText } from '../words/index.js';
import styles from './recipe-page.module.css';

/** What to set for the recipe, on which press. */
export function OnPress(props: {
  readonly blankId: string;
  readonly recipe: Recipe;
  readonly presses: readonly Press[];
  readonly press: Press | null;
}) {
  const { blankId, recipe, presses, press } = props;
  const { temperatureUnit } = usePreferences();
  const navigate = useNavigate({ from: '/press/recipes/$blankId' });
  const onPress = useRecipeOnPress(blankId, press?.id ?? null);
  const setC = press === null ? recipe.platenC : onPress.data?.setC;
  return (
    <section aria-labelledby="set-title" className={styles.onPress}>
      <h2 id="set-title">What to set</h2>
      {setC !== undefined && (
        <p className={styles.set} aria-live="polite">
          {temperatureText(setC, temperatureUnit)}
        </p>
      )}
      <Select
        size="md"
        label="On the press"
        placeholder="Any press, its display taken as true"
        clearable
        clearButtonProps={{ 'aria-label': 'Any press' }}
        data={presses.map((one) => ({ value: one.id, label: one.name }))}
        value={press?.id ?? null}
        onChange={(id) =>
          void navigate({ search: id ? { press: id } : {}, replace: true, resetScroll: false })
        }
      />
      {onPress.error && <ProblemNote error={onPress.error} />}
      {press === null ? (
        <p className="soft">
          Recipes hold true temperatures at the platen. Choose a press, and its own error is counted in.
        </p>
      ) : (
        onPress.data && (
          <>
            <p>
              <Told text={onPress.data.words} />
            </p>
            <p>
              <Link to="/press/platen/$pressId" params={{ pressId: press.id }}>
                {onPress.data.checkId === null
                  ? `Measure how hot ${press.name} gets`
                  : 'The measurement this rests on'}
              </Link>
            </p>
          </>
        )
      )}
    </section>
  );
}
