import { Link } from '@tanstack/react-router';
import type { Ladder } from '#contract';
import { Told, usePreferences } from '../frame/index.js';
import { dayText } from '../words/index.js';
import { isKnown, type LadderStage, ladderStages } from './ladder-state.js';
import { MiniLadder } from './mini-ladder.js';
import styles from './press.module.css';
import { saidOfLadder } from './said-of-ladder.js';
import { factorsText, stepText } from './words.js';

const nextWords: Record<LadderStage, string> = {
  made: 'Make it',
  pressed: 'Print and press it',
  read: 'Scan the coupons, or judge them by eye',
  window: 'See what is wanting',
};

/** Ladders, the latest first: the recipe with what it bears, or what is wanting. */
export function LadderList({ ladders }: { readonly ladders: readonly Ladder[] }) {
  const { temperatureUnit } = usePreferences();
  if (ladders.length === 0) return null;
  return (
    <section aria-labelledby="ladders-title" className={styles.section}>
      <h2 id="ladders-title">Ladders</h2>
      <ul className={styles.ladders}>
        {ladders.map((ladder) => {
          const { window } = ladder;
          const next = ladderStages(ladder, saidOfLadder(ladder.sheetId)).find((one) => !one.done)?.stage;
          const known = ladder.coupons.filter(isKnown).length;
          return (
            <li key={ladder.sheetId}>
              <Link
                to="/press/ladders/$ladderId"
                params={{ ladderId: ladder.sheetId }}
                className={styles.ladder}
              >
                <span className={styles.ladderKind}>
                  {ladder.coupons.length} coupons, {factorsText(ladder.plan.factors)};{' '}
                  {dayText(ladder.updatedAt)}
                  {ladder.demo && ' · demo'}
                </span>
                <span className={styles.ladderName}>
                  {ladder.blankName}
                  {ladder.plan.pressName && <span className={styles.soft}> on {ladder.plan.pressName}</span>}
                </span>
                <MiniLadder ladder={ladder} />
                {window ? (
                  <>
                    <span className={styles.recipe}>
                      {stepText(
                        {
                          platenC: window.recipe.platenC,
                          dwellSeconds: window.recipe.dwellSeconds,
                          ...(window.recipe.pressureBar === null
                            ? {}
                            : { pressureBar: window.recipe.pressureBar }),
                        },
                        window.recipe.platenC,
                        temperatureUnit,
                      )}
                    </span>
                    <span>{toleranceWords(ladder)}</span>
                  </>
                ) : (
                  <>
                    <span className={styles.soft}>
                      {known > 0 ? `${known} of ${ladder.coupons.length} coupons read. ` : ''}
                      {known > 0 && ladder.missing && <Told text={ladder.missing} />}
                    </span>
                    <span className={styles.next}>Next: {nextWords[next ?? 'window']}</span>
                  </>
                )}
              </Link>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function toleranceWords({ window }: Ladder): string {
  if (!window) return '';
  const { tolerance } = window.recipe;
  const bears = `Bears ${Math.floor(tolerance.shorterSeconds)} s less, ${Math.floor(tolerance.longerSeconds)} s more.`;
  return window.isSure ? bears : `${bears} A further coupon would make it surer.`;
}
