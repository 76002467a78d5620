import { Link } from '@tanstack/react-router';
import type { ColourPath, PathCheck } from '#contract';
import { CheckTrend } from '../charts/index.js';
import { dayText, deltaText, differenceWords, gradeText } from '../words/index.js';
import styles from './checks-section.module.css';
import { SwatchItem, SwatchList } from './swatches.js';

const verdicts: Record<PathCheck['verdict'], string> = {
  good: '✓ good',
  look: '! look again',
  stale: '× no longer fits',
};
const worstShown = 6;

/** Second prints read back: the newest in words, all of them over time. */
export function ChecksSection({
  path,
  checks,
}: {
  readonly path: ColourPath;
  readonly checks: readonly PathCheck[];
}) {
  const inTime = [...checks].sort((one, two) => two.createdAt.localeCompare(one.createdAt));
  const newest = inTime[0];
  return (
    <section aria-labelledby="checks-title" className={styles.section}>
      <h2 id="checks-title">Checks by a second print</h2>
      {newest ? (
        <>
          <div>
            {newest.sentences.map((sentence, i) => (
              <p key={sentence} className={i === 0 ? styles.lead : undefined}>
                {sentence}
              </p>
            ))}
          </div>
          <CheckTrend checks={checks} />
          <p className="soft">
            Dots are means, stems reach to what 95 % of the colours stay within. Colours out of reach are kept
            apart.
          </p>
          <ul className={styles.list}>
            {inTime.map((check) => (
              <li key={check.id}>
                <b>
                  {dayText(check.createdAt)}: {verdicts[check.verdict]}
                </b>
                <span className="figures">
                  {check.overall.count} colours within reach {deltaText(check.overall.mean)} on average, 95 %
                  within {check.overall.p95.toFixed(1)}, at most {check.overall.max.toFixed(1)}.
                  {check.neutrals && ` Greys ${deltaText(check.neutrals.mean)} on average.`}
                  {check.limited &&
                    ` ${check.limited.count} out of reach, ${deltaText(check.limited.mean)} from their nearest.`}
                </span>
                <span className="soft">
                  Read as {gradeText(check.grade)}.{' '}
                  <Link to="/readings/$readingId" params={{ readingId: check.readingId }}>
                    The reading
                  </Link>
                </span>
              </li>
            ))}
          </ul>
          <Worst check={newest} />
        </>
      ) : (
        <p>
          Not checked yet. A check sheet is a small second print sent through the path: read back, it says how
          near colours really come.
        </p>
      )}
      <p>
        <Link to="/measure" search={{ start: 'check', path: path.id }}>
          Make a check sheet
        </Link>
      </p>
    </section>
  );
}

function Worst({ check }: { readonly check: PathCheck }) {
  const worst = check.patches
    .filter((patch) => patch.kind !== 'limited')
    .sort((one, two) => two.deltaE00 - one.deltaE00)
    .slice(0, worstShown);
  if (worst.length === 0) return null;
  return (
    <>
      <h3>Furthest off in the newest check</h3>
      <p className="soft">Left as asked, right as it came out.</p>
      <SwatchList>
        {worst.map((patch) => (
          <SwatchItem key={patch.wantedLab.join()} left={patch.wantedHex} right={patch.seenHex}>
            <span>{differenceWords(patch.deltaE00)}</span>
            <span className="soft figures">
              {deltaText(patch.deltaE00)}
              {patch.kind === 'neutral' && ' · a grey'}
            </span>
          </SwatchItem>
        ))}
      </SwatchList>
    </>
  );
}
