import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import type { Ladder } from '#contract';
import { useAdoptRecipe, useRecipeVersions } from '../../api/index.js';
import { ProblemNote, usePreferences } from '../../frame/index.js';
import { secondsText, temperatureText } from '../../words/index.js';
import { barText } from '../words.js';
import styles from './window.module.css';

/** The recipe, as large as it is to be read at the press, and the way to make it the blank's. */
export function MakeRecipe({ ladder }: { readonly ladder: Ladder }) {
  const { temperatureUnit } = usePreferences();
  const versions = useRecipeVersions(ladder.blankId);
  const adopting = useAdoptRecipe(ladder.blankId);
  const { window, plan } = ladder;
  if (!window) return null;
  const { recipe } = window;
  const newest = versions.data?.[0];
  const inUse =
    newest?.ground.ladderId === ladder.sheetId &&
    newest.recipe.dwellSeconds === recipe.dwellSeconds &&
    Math.round(newest.recipe.platenC) === Math.round(recipe.platenC);
  return (
    <div className={styles.make}>
      <p className={styles.set}>
        <span>Set {temperatureText(recipe.setC, temperatureUnit)}</span>{' '}
        <span>{secondsText(recipe.dwellSeconds)}</span>
        {recipe.pressureBar !== null && (
          <>
            {' '}
            <span>{barText(recipe.pressureBar)}</span>
          </>
        )}
      </p>
      {plan.offsetK !== null && Math.round(recipe.setC) !== Math.round(recipe.platenC) && (
        <p className="soft">
          For {temperatureText(recipe.platenC, temperatureUnit)} true at the platen of {plan.pressName}.
        </p>
      )}
      {inUse ? (
        <p role="status" className={styles.inUse}>
          This is the recipe of {ladder.blankName} now (version {newest.number}).{' '}
          <Link to="/press/recipes/$blankId" params={{ blankId: ladder.blankId }}>
            Its recipes
          </Link>
        </p>
      ) : (
        <div className={styles.makeActs}>
          <Button
            size="lg"
            loading={adopting.isPending}
            onClick={() =>
              adopting.mutate({
                from: 'ladder',
                ladderId: ladder.sheetId,
                ...(plan.pressId ? { pressId: plan.pressId } : {}),
              })
            }
          >
            Make this the recipe
          </Button>
          <span className="soft">
            of {ladder.blankName}
            {newest
              ? `; now ${temperatureText(newest.recipe.platenC, temperatureUnit)} for ${secondsText(newest.recipe.dwellSeconds)}`
              : ''}
          </span>
        </div>
      )}
      {adopting.error && <ProblemNote error={adopting.error} />}
    </div>
  );
}
