import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import type { Reading } from '#contract';
import { useReaders, useTellColoursAnew } from '../../api/index.js';
import { ProblemNote } from '../../frame/index.js';
import { expectedErrorText, gradeMeanings, gradeNames, restsOnNames } from '../../words/index.js';
import styles from './reading.module.css';

/** How far the colours read can be trusted, what that rests on, and how to get a better grade. */
export function Trust({ reading }: { readonly reading: Reading }) {
  const { grade, expectedError } = reading;
  return (
    <section aria-labelledby={`trust-${reading.id}`} className={styles.trust}>
      <h3 id={`trust-${reading.id}`} className={styles.grade}>
        <span className={styles.letter} aria-hidden="true">
          {grade}
        </span>
        <span>
          <span className="said-only">Grade {grade}: </span>
          {gradeNames[grade]}
        </span>
      </h3>
      <p>{gradeMeanings[grade]}</p>
      <p>
        Expected error of the colours read: <strong>{expectedErrorText(expectedError)}</strong>,{' '}
        {restsOnNames[expectedError.restsOn]}.
      </p>
      <WithReader reading={reading} />
      <Better reading={reading} />
    </section>
  );
}

/** A reader that has been calibrated since, or was not named: what was seen stays, its colours are told anew. */
function WithReader({ reading }: { readonly reading: Reading }) {
  const readers = useReaders();
  const telling = useTellColoursAnew();
  if (reading.from === 'instrument' || reading.grade !== 'D') return null;
  const kind = reading.from === 'scan' ? 'scanner' : 'phone';
  const calibrated = (readers.data ?? []).filter((one) => one.kind === kind && one.calibration);
  if (calibrated.length === 0) return null;
  return (
    <div className={styles.anew}>
      <p>Was it made with one of these, its settings unchanged?</p>
      <div className="row">
        {calibrated.map((one) => (
          <Button
            key={one.id}
            variant="default"
            loading={telling.isPending && telling.variables.readerId === one.id}
            onClick={() => telling.mutate({ id: reading.id, readerId: one.id })}
          >
            With {one.name}
          </Button>
        ))}
      </div>
      {telling.error && <ProblemNote error={telling.error} />}
    </div>
  );
}

function Better({ reading }: { readonly reading: Reading }) {
  const toReaders = (
    <Link to="/measure" hash="readers">
      Calibrate it once
    </Link>
  );
  if (reading.grade === 'A' || reading.grade === 'E') return null;
  return (
    <details>
      <summary>How to get a better grade</summary>
      <ul className={styles.better}>
        {reading.grade === 'D' && reading.from === 'photo' && (
          <>
            <li>Scan it instead: a scanner’s light is even, and always the same.</li>
            <li>Or lay a card of known patches beside it when you take the photo (grade C).</li>
          </>
        )}
        {reading.grade === 'D' && reading.from === 'scan' && (
          <li>
            {reading.readerId ? toReaders : 'Name your scanner below, then calibrate it once'}: with a pressed
            sheet of this ink that somebody measured with an instrument, or with a reference target and its
            file (grade B). This reading is then worked out anew here, without another scan.
          </li>
        )}
        {reading.grade === 'C' && <li>Scan it with a calibrated scanner (grade B).</li>}
        <li>
          Have the pressed sheet measured by an instrument, patch by patch, and give its file here (grade A).
          A print shop or a paper dealer may lend one for an afternoon.
        </li>
      </ul>
    </details>
  );
}
