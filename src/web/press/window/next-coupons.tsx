import { Link } from '@tanstack/react-router';
import type { Ladder } from '#contract';
import { Told, usePreferences } from '../../frame/index.js';
import { stepText } from '../words.js';
import styles from './window.module.css';

/** Which coupon would tell most, while the answer is not sure. */
export function NextCoupons({ ladder }: { readonly ladder: Ladder }) {
  const { temperatureUnit } = usePreferences();
  const { window, plan } = ladder;
  if (!window || window.next.length === 0) return null;
  const again = (
    <Link
      to="/press/ladder/new"
      search={{
        blank: ladder.blankId,
        ...(plan.pressId ? { press: plan.pressId } : {}),
        platenC: Math.round(window.recipe.platenC),
        seconds: window.recipe.dwellSeconds,
      }}
    >
      {window.isSure ? 'A further ladder round this recipe' : 'Plan a further ladder round this recipe'}
    </Link>
  );
  if (window.isSure) {
    return (
      <p className={styles.aside}>
        Sure enough: a further coupon would not move the recipe by more than a press repeats itself. {again}
      </p>
    );
  }
  return (
    <section aria-labelledby="next-title" className={styles.next}>
      <h3 id="next-title">What to press next</h3>
      <ol>
        {window.next.slice(0, 3).map((one) => (
          <li key={JSON.stringify(one.step)}>
            <strong className="figures">{stepText(one.step, one.setC, temperatureUnit)}</strong>
            <span className="soft">
              <Told text={one.words} />
            </span>
          </li>
        ))}
      </ol>
      <p>{again}</p>
    </section>
  );
}
