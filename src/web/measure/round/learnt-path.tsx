import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import type { ColourPath } from '#contract';
import { useSetups } from '../../api/index.js';
import { differenceWords, gradeText } from '../../words/index.js';
import styles from './round.module.css';

/** The path is there: how good it is, in a sentence, and what comes next. */
export function LearntPath({ path }: { readonly path: ColourPath }) {
  const setups = useSetups();
  const users = (setups.data ?? []).filter((setup) => setup.colourPathId === path.id);
  const measured = path.measurement;
  return (
    <div className={styles.learnt}>
      <p className={styles.big} role="status">
        {measured
          ? `“${path.name}”: colours should come out within ${measured.expectedError.meanDeltaE00.toFixed(1)} ΔE00 on average.`
          : `“${path.name}” is learnt.`}
      </p>
      {measured && (
        <p>
          Grade {gradeText(measured.grade)}. Side by side with what was asked:{' '}
          {differenceWords(measured.expectedError.meanDeltaE00)}.
          {measured.patches > 0 && ` Learnt from ${measured.patches} patches.`}
          {measured.outliers.length > 0 &&
            ` ${measured.outliers.length === 1 ? 'One did not fit and was' : `${measured.outliers.length} did not fit and were`} left out.`}
        </p>
      )}
      <p>
        {users.length > 0
          ? `In use: ${users.map((setup) => setup.name).join(', ')}.`
          : 'No print setup uses it yet; choose it on its page.'}
      </p>
      <div className="row">
        <Button
          renderRoot={(props) => <Link {...props} to="/paths/$pathId" params={{ pathId: path.id }} />}
          size="md"
        >
          See the path
        </Button>
        <Button
          renderRoot={(props) => <Link {...props} to="/measure" search={{ start: 'check', path: path.id }} />}
          size="md"
          variant="default"
        >
          Check it with a small second print
        </Button>
        {path.origin === 'measured' && (
          <Link to="/measure" search={{ start: 'follow-up', path: path.id }}>
            More patches where it is least sure
          </Link>
        )}
      </div>
    </div>
  );
}
