import type { Ladder } from '#contract';
import { useLadderField } from '../../api/index.js';
import { ProblemNote, Told } from '../../frame/index.js';
import { MakeRecipe } from './make-recipe.js';
import { NextCoupons } from './next-coupons.js';
import styles from './window.module.css';
import { WindowFacts } from './window-facts.js';
import { WindowLine } from './window-line.js';
import { WindowPicture } from './window-picture.js';

/** The answer of a ladder: in words, as a picture, then in figures, and what to do with it. */
export function WindowView({ ladder }: { readonly ladder: Ladder }) {
  const field = useLadderField(ladder);
  const { window, plan } = ladder;
  if (!window) return null;
  // What the activation energy rests on stands beside its figure.
  const remarks = window.remarks.filter((remark) => remark !== window.activation.basis);
  const varied = new Set(plan.factors);
  return (
    <section aria-labelledby="window-title" className={styles.view}>
      <div className={styles.picture}>
        <h2 id="window-title">Where all is well</h2>
        {field.error && <ProblemNote error={field.error} onAgain={() => void field.refetch()} />}
        {!field.data && !field.error && <p className="soft">Drawing the window…</p>}
        {field.data &&
          (varied.has('time') && varied.has('temperature') ? (
            <WindowPicture ladder={ladder} field={field.data} />
          ) : (
            <WindowLine
              ladder={ladder}
              field={field.data}
              along={varied.has('temperature') ? 'temperature' : 'time'}
            />
          ))}
      </div>
      <MakeRecipe ladder={ladder} />
      <div className={styles.said}>
        <WindowFacts ladder={ladder} />
      </div>
      <div className={styles.after}>
        <NextCoupons ladder={ladder} />
        {remarks.length > 0 && (
          <ul className={styles.remarks} aria-label="To know of this answer">
            {remarks.map((remark) => (
              <li key={remark}>
                <Told text={remark} />
              </li>
            ))}
          </ul>
        )}
      </div>
    </section>
  );
}
