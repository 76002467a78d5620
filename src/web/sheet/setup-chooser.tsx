import { Link } from '@tanstack/react-router';
import type { PrintSetup } from '#contract';
import { useColourPaths } from '../api/index.js';
import { usePreferences } from '../frame/index.js';
import { pathText, sizeText } from '../words/index.js';
import styles from './choosers.module.css';
import { PaperDrawing } from './slots.js';

/** The whole route from file to paper, named once. */
export function SetupChooser(props: {
  readonly setups: readonly PrintSetup[];
  readonly chosenId: string | null;
  onPick(setup: PrintSetup): void;
}) {
  const { lengthUnit } = usePreferences();
  const paths = useColourPaths();
  return (
    <div className="stack">
      <ul className={styles.blanks}>
        {props.setups.map((setup) => (
          <li key={setup.id}>
            <button
              type="button"
              className={styles.blankCard}
              aria-pressed={setup.id === props.chosenId}
              onClick={() => props.onPick(setup)}
            >
              <PaperDrawing paper={setup.paper} />
              <span className={styles.cardWords}>
                <span className={styles.cardName}>{setup.name}</span>
                <span className={styles.cardFact}>
                  {setup.printer} · {setup.ink}
                </span>
                <span className={styles.cardFact}>
                  {setup.paper.roll
                    ? `${setup.paper.name}, roll`
                    : `${setup.paper.name}, ${sizeText(setup.paper.widthMm, setup.paper.heightMm, lengthUnit)}`}
                </span>
                <span className={styles.cardFact}>{pathText(setup.colourPathId, paths.data)}</span>
                {setup.demo && <span className="demo-word">demo</span>}
              </span>
            </button>
          </li>
        ))}
      </ul>
      <p>
        <Link to="/setups" search={{ open: 'new-setup' }}>
          Add a print setup in Setups
        </Link>
      </p>
    </div>
  );
}
