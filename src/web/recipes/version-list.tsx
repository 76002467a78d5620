import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import type { RecipeVersion } from '#contract';
import { useAdoptRecipe } from '../api/index.js';
import { ProblemNote, Told, usePreferences } from '../frame/index.js';
import { dayText } from '../words/index.js';
import styles from './recipe-page.module.css';
import { changeText, groundNames, recipeText } from './recipe-words.js';

/** Every recipe the blank had, newest first: what it rests on, what changed, and the way back to it. */
export function VersionList({
  blankId,
  versions,
}: {
  readonly blankId: string;
  readonly versions: readonly RecipeVersion[];
}) {
  const { temperatureUnit } = usePreferences();
  const adopting = useAdoptRecipe(blankId);
  return (
    <section aria-labelledby="versions-title" className={styles.section}>
      <h2 id="versions-title">
        {versions.length === 1 ? 'The only version so far' : `Its ${versions.length} versions`}
      </h2>
      <ol className={styles.versions} reversed>
        {versions.map((version, i) => {
          const before = versions[i + 1];
          const changed = before ? changeText(before.recipe, version.recipe, temperatureUnit) : '';
          return (
            <li key={version.number} aria-current={i === 0 ? 'true' : undefined}>
              <span className={styles.number} aria-hidden="true">
                {version.number}
              </span>
              <div className={styles.versionWords}>
                <strong>
                  <span className="said-only">Version {version.number}: </span>
                  {recipeText(version.recipe, temperatureUnit)}
                  {i === 0 && <span className={styles.now}> · in use</span>}
                </strong>
                <span className="soft">
                  {dayText(version.createdAt)} · {groundNames[version.ground.kind]}
                  {version.pressName ? ` · ${version.pressName}` : ''}
                  {changed && ` · ${changed}`}
                </span>
                {version.ground.words && (
                  <span>
                    {version.ground.kind === 'typed' ? (
                      version.ground.words
                    ) : (
                      <Told text={version.ground.words} />
                    )}
                  </span>
                )}
                {version.ground.ladderId && (
                  <Link to="/press/ladders/$ladderId" params={{ ladderId: version.ground.ladderId }}>
                    The ladder it comes from
                  </Link>
                )}
              </div>
              {i > 0 && (
                <Button
                  variant="default"
                  loading={
                    adopting.isPending &&
                    adopting.variables.from === 'version' &&
                    adopting.variables.number === version.number
                  }
                  onClick={() => adopting.mutate({ from: 'version', number: version.number })}
                >
                  Back to this<span className="said-only">: version {version.number}</span>
                </Button>
              )}
            </li>
          );
        })}
      </ol>
      {adopting.error && <ProblemNote error={adopting.error} />}
    </section>
  );
}
