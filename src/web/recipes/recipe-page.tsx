import { Button } from '@mantine/core';
import { useDocumentTitle } from '@mantine/hooks';
import { Link, useParams, useSearch } from '@tanstack/react-router';
import { useState } from 'react';
import type { Blank, RecipeVersion } from '#contract';
import { cautionsFor } from '#craft/heat';
import { useBlanks, usePresses, useRecipeVersions } from '../api/index.js';
import { BlankDrawing, Cautions, ProblemNote, Told, usePreferences } from '../frame/index.js';
import { OnPress } from './on-press.js';
import styles from './recipe-page.module.css';
import { groundMeanings, groundNames, recipeText } from './recipe-words.js';
import { StartRecipe } from './start-recipe.js';
import { TypedRecipe } from './typed-recipe.js';
import { VersionList } from './version-list.js';

/** A blank's recipe: what it is, what it rests on, what to set, and every version there was. */
export function RecipePage() {
  const { blankId } = useParams({ from: '/press/recipes/$blankId' });
  const blanks = useBlanks();
  const versions = useRecipeVersions(blankId);
  const blank = blanks.data?.find((one) => one.id === blankId) ?? null;
  useDocumentTitle(`${blank?.name ?? 'Recipe'} · Dyewright`);
  if (versions.error) return <ProblemNote error={versions.error} onAgain={() => void versions.refetch()} />;
  if (blanks.error) return <ProblemNote error={blanks.error} onAgain={() => void blanks.refetch()} />;
  const newest = versions.data?.[0];
  if (!blanks.data || !versions.data) return <h1>Looking it up…</h1>;
  if (!blank || !newest) return <h1>This shop has no such blank.</h1>;
  return <Whole key={blankId} blank={blank} versions={versions.data} newest={newest} />;
}

function Whole(props: {
  readonly blank: Blank;
  readonly versions: readonly RecipeVersion[];
  readonly newest: RecipeVersion;
}) {
  const { blank, versions, newest } = props;
  const { press: pressId } = useSearch({ from: '/press/recipes/$blankId' });
  const presses = usePresses();
  const { temperatureUnit } = usePreferences();
  const [typing, setTyping] = useState(false);
  const press = presses.data?.find((one) => one.id === (pressId ?? newest.pressId ?? undefined)) ?? null;
  const { recipe, ground } = newest;
  const cautions = cautionsFor({
    material: blank.material,
    kind: press?.kind ?? 'flat',
    watts: press?.watts,
  });
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <p className={styles.name}>
          <BlankDrawing blank={blank} width={56} />
          <span>
            {blank.name}
            {blank.demo && <span className="demo-word"> · demo</span>}
          </span>
        </p>
        <h1>{recipeText(recipe, temperatureUnit)}</h1>
        <p>
          Version {newest.number}, {groundNames[ground.kind]}. {groundMeanings[ground.kind]}
        </p>
      </header>
      <div className={styles.columns}>
        <OnPress blankId={blank.id} recipe={recipe} presses={presses.data ?? []} press={press} />
        <section aria-labelledby="steps-title" className={styles.section}>
          <h2 id="steps-title">How it is done</h2>
          {recipe.steps.length > 0 ? (
            <ol className={styles.steps}>
              {recipe.steps.map((step) => (
                <li key={step}>{step}</li>
              ))}
            </ol>
          ) : (
            <p className="soft">No steps are written down.</p>
          )}
          <p>
            <strong>It rests on:</strong>{' '}
            {ground.words && ground.kind !== 'typed' ? (
              <Told text={ground.words} />
            ) : (
              ground.words || recipe.basis
            )}
          </p>
          {ground.words && !recipe.basis.includes(ground.words) && <p className="soft">{recipe.basis}</p>}
          <Cautions cautions={cautions} />
        </section>
      </div>
      {presses.error && <ProblemNote error={presses.error} />}
      <div className={styles.acts}>
        {ground.kind !== 'ladder' && (
          <Button
            renderRoot={(rest) => (
              <Link
                {...rest}
                to="/press/ladder/new"
                search={{ blank: blank.id, ...(press ? { press: press.id } : {}) }}
              />
            )}
          >
            Measure it with a ladder
          </Button>
        )}
        {!typing && (
          <Button variant="default" onClick={() => setTyping(true)}>
            Type another
          </Button>
        )}
        <Link to="/press/heat" search={{ blank: blank.id, ...(press ? { press: press.id } : {}) }}>
          What heat does in it
        </Link>
        <Link to="/press/force" search={{ blank: blank.id, ...(press ? { press: press.id } : {}) }}>
          What the press pushes with
        </Link>
      </div>
      {typing && (
        <TypedRecipe key={newest.number} blankId={blank.id} recipe={recipe} onDone={() => setTyping(false)} />
      )}
      <VersionList blankId={blank.id} versions={versions} />
      {ground.kind !== 'ladder' && (
        <details className={styles.more}>
          <summary>A start recipe from a blank that works</summary>
          <StartRecipe blank={blank} pressId={press?.id ?? null} />
        </details>
      )}
      <p className={styles.foot}>
        <Link to="/press">Press</Link>
        <Link to="/setups" search={{ open: `blank:${blank.id}` }}>
          {blank.name} in Setups
        </Link>
      </p>
    </div>
  );
}
