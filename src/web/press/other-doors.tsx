import { Link } from '@tanstack/react-router';
import { useEvennessReadings, usePresses } from '../api/index.js';
import { dayText } from '../words/index.js';
import { EvennessDrawing, ForceDrawing, HeatDrawing } from './drawings.js';
import styles from './press.module.css';
import { PressDoor } from './press-door.js';

/** The presses with what is known of each; evenness, heat and force. */
export function OtherDoors() {
  const presses = usePresses();
  const evenness = useEvennessReadings();
  const latest = [...(evenness.data ?? [])].sort((one, two) => two.createdAt.localeCompare(one.createdAt))[0];
  return (
    <>
      <section aria-labelledby="presses-title" className={styles.section}>
        <h2 id="presses-title">Presses</h2>
        <p className="soft">
          Whether a platen is as hot as its display says, and where it is cool. What is found here corrects
          every recipe and every ladder.
        </p>
        <ul className={styles.presses}>
          {presses.data?.map((press) => (
            <PressDoor key={press.id} press={press} />
          ))}
        </ul>
        <p>
          <Link to="/setups" search={{ open: 'new-press' }}>
            Add a press
          </Link>
        </p>
      </section>
      <section aria-labelledby="doors-title" className={styles.section}>
        <h2 id="doors-title">Without spending a blank</h2>
        <ul className={styles.doors}>
          <li>
            <Link to="/press/evenness/new" className={styles.door}>
              <EvennessDrawing />
              <h3>Evenness</h3>
              <p>
                One flat tone over the whole platen: a scan of it shows where it presses cooler or lighter.
              </p>
              <p className={styles.soft}>
                {latest ? `Last read ${dayText(latest.createdAt)}.` : 'None read yet.'}
              </p>
            </Link>
            {latest && (
              <p>
                <Link to="/press/evenness/$id" params={{ id: latest.id }}>
                  What was found last
                </Link>
              </p>
            )}
          </li>
          <li>
            <Link to="/press/heat" className={styles.door}>
              <HeatDrawing />
              <h3>Heat</h3>
              <p>
                When the dye’s place gets hot, what 5 degrees too little cost, and a start recipe for a blank
                never pressed.
              </p>
            </Link>
          </li>
          <li>
            <Link to="/press/force" className={styles.door}>
              <ForceDrawing />
              <h3>Force</h3>
              <p>
                From the gauge or the knob to the pressure on the blank; and what glass and ceramics bear.
              </p>
            </Link>
          </li>
        </ul>
      </section>
    </>
  );
}
