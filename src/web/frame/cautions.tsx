import type { CautionFacts } from '#contract';
import styles from './cautions.module.css';
import { Told } from './told.js';

/**
 * What can hurt, where a person is about to act: each caution with what it rests on unfolding, the makers and licensed
 * practice first.
 */
export function Cautions({ cautions }: { readonly cautions: readonly CautionFacts[] }) {
  if (cautions.length === 0) return null;
  return (
    <section className={styles.box} aria-label="Take care">
      <p>
        <strong>
          <span aria-hidden="true">⚠ </span>Take care.
        </strong>{' '}
        What the makers of press, ink and blank say comes before all of this; wiring is for an electrician.
      </p>
      <ul>
        {cautions.map((caution) => (
          <li key={caution.id}>
            <Told text={caution.text} />
          </li>
        ))}
      </ul>
      <details>
        <summary>What these rest on</summary>
        <ul>
          {cautions.map((caution) => (
            <li key={caution.id}>
              <Told text={caution.basis} />
            </li>
          ))}
        </ul>
      </details>
    </section>
  );
}
