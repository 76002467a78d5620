import { Button } from '@mantine/core';
import { useState } from 'react';
import { type Recipe, recipeSchema } from '#contract';
import { useAdoptRecipe } from '../api/index.js';
import { ProblemNote, usePreferences } from '../frame/index.js';
import { issueWords } from '../words/index.js';
import { RecipeFields } from './recipe-fields.js';
import styles from './recipe-page.module.css';

/** Another recipe, by a person's word; it becomes a new version. */
export function TypedRecipe(props: { readonly blankId: string; readonly recipe: Recipe; onDone(): void }) {
  const [draft, setDraft] = useState<Recipe>({ ...props.recipe, basis: '' });
  const [complaints, setComplaints] = useState<Readonly<Record<string, string>>>({});
  const preferences = usePreferences();
  const adopting = useAdoptRecipe(props.blankId);
  const keep = () => {
    const checked = recipeSchema.safeParse(draft);
    if (!checked.success) {
      setComplaints(
        Object.fromEntries(
          checked.error.issues.map((issue) => [
            `recipe.${issue.path.join('.')}`,
            issue.path[0] === 'basis'
              ? 'Say where it comes from: the maker’s leaflet, a trial of yours.'
              : issueWords(issue, preferences),
          ]),
        ),
      );
      return;
    }
    setComplaints({});
    adopting.mutate(
      { from: 'typed', recipe: checked.data, words: checked.data.basis },
      { onSuccess: props.onDone },
    );
  };
  return (
    <form
      className={styles.typed}
      aria-label="Another recipe"
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <RecipeFields recipe={draft} onChange={setDraft} complaint={(path) => complaints[path]} />
      {adopting.error && <ProblemNote error={adopting.error} />}
      <div className="row">
        <Button type="submit" loading={adopting.isPending}>
          Keep as a new version
        </Button>
        <Button variant="default" onClick={props.onDone}>
          Leave as it was
        </Button>
      </div>
    </form>
  );
}
