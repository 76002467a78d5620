import { Link } from '@tanstack/react-router';
import type { ColourPath } from '#contract';
import { pathMeasurementsUrl, profileUrl } from '../api/index.js';
import styles from './take-it.module.css';

/** More measuring for this path, and its files for other programs. */
export function TakeIt({ path }: { readonly path: ColourPath }) {
  const measured = path.origin === 'measured';
  return (
    <>
      {measured && (
        <details>
          <summary>Make it better, or fit it to something new</summary>
          <ul className={styles.list}>
            <li>
              <Link to="/measure" search={{ start: 'follow-up', path: path.id }}>
                Make a follow-up sheet
              </Link>
              <span className="soft">
                More patches where it is least sure, or where the colours of an artwork lie.
              </span>
            </li>
            <li>
              <Link to="/measure" search={{ start: 'follow-up', path: path.id }}>
                Adapt it to another paper or blank
              </Link>
              <span className="soft">
                The same small sheet, printed with the other setup or pressed on the other blank: choose those
                there. Once it has been read, say “Adapt it”. What this path knows is kept, only what differs
                is learnt.
              </span>
            </li>
          </ul>
        </details>
      )}
      <details>
        <summary>Take it to another program</summary>
        <ul className={styles.list}>
          <li>
            <a href={profileUrl(path.id, 4)} download>
              ICC profile, version 4
            </a>
            <span className="soft">
              For programs of today. Worked out when you ask: allow it some seconds.
            </span>
          </li>
          <li>
            <a href={profileUrl(path.id, 2)} download>
              ICC profile, version 2
            </a>
            <span className="soft">For older programs and drivers.</span>
          </li>
          {measured && (
            <li>
              <a href={pathMeasurementsUrl(path.id)} download>
                Measurements (CGATS)
              </a>
              <span className="soft">Every patch as text, with its grade.</span>
            </li>
          )}
        </ul>
        <p className="soft">
          Used elsewhere, it must be used once: not in the program and in the driver both. Sheets made here
          have it baked in already.
        </p>
      </details>
    </>
  );
}
