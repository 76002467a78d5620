import { Button } from '@mantine/core';
import type { PathCheck, Reading } from '#contract';
import { useCheckPath } from '../../api/index.js';
import { CheckTrend } from '../../charts/index.js';
import { ProblemNote, Working } from '../../frame/index.js';
import { deltaText, differenceWords, gradeText } from '../../words/index.js';
import { SwatchPairs } from '../swatch-pairs.js';
import styles from './round.module.css';

/** Hold what was read against what the path promised. */
export function CheckStep(props: {
  readonly pathId: string;
  readonly readings: readonly Reading[];
  readonly checks: readonly PathCheck[];
}) {
  const { pathId, readings, checks } = props;
  const checking = useCheckPath(pathId);
  const newest = readings.find((reading) => reading.subject === 'piece');
  if (!newest) return <p>Once the pressed check sheet has been read, the verdict stands here.</p>;
  const check = checks.find((one) => one.readingId === newest.id) ?? null;
  if (!check) {
    return checking.isPending ? (
      <Working step="Comparing colours" share={null} />
    ) : (
      <>
        <div>
          <Button size="md" onClick={() => checking.mutate(newest.id)}>
            Hold it against the path
          </Button>
        </div>
        {checking.error && <ProblemNote error={checking.error} />}
      </>
    );
  }
  return <CheckView check={check} checks={checks} />;
}

const verdicts: Record<PathCheck['verdict'], string> = {
  good: 'The path holds.',
  look: 'Worth a look.',
  stale: 'The path no longer holds.',
};

/** The verdict in words, the colours, and the checks before it. Neutrals and colours out of reach stand apart. */
export function CheckView({
  check,
  checks,
}: {
  readonly check: PathCheck;
  readonly checks: readonly PathCheck[];
}) {
  const of = (kind: PathCheck['patches'][number]['kind']) =>
    check.patches.filter((patch) => patch.kind === kind);
  const [first, ...rest] = check.sentences;
  return (
    <div className={styles.check}>
      <p className={styles.big}>{first ?? verdicts[check.verdict]}</p>
      <p>
        <strong>{verdicts[check.verdict]}</strong> {rest[0]}
      </p>
      {rest.length > 1 && (
        <ul className={styles.also}>
          {rest.slice(1).map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      {(check.grade === 'C' || check.grade === 'D') && (
        <p className={styles.caution}>
          Path and check were seen by a reader that nobody has calibrated: what the reader itself sees wrongly
          does not show here. The check tells that the way from file to piece has stayed the same.
        </p>
      )}
      <div className={styles.tableBox}>
        <table className={styles.spread}>
          <caption className="said-only">How far colours came out from what was asked</caption>
          <thead>
            <tr>
              <td />
              <th scope="col">on average</th>
              <th scope="col">95 % within</th>
              <th scope="col">furthest</th>
              <th scope="col">patches</th>
            </tr>
          </thead>
          <tbody>
            <Row name="Colours within reach" spread={check.overall} />
            {check.neutrals && <Row name="Greys among them" spread={check.neutrals} />}
            {check.limited && <Row name="Out of reach, beside their nearest" spread={check.limited} />}
          </tbody>
        </table>
      </div>
      <p className="soft">
        ΔE00, beside the path’s own white. The path itself expected {deltaText(check.expectedMean)} on
        average; {deltaText(check.overall.mean)} is {differenceWords(check.overall.mean)}. Read with grade{' '}
        {gradeText(check.grade)}.
      </p>
      <div className={styles.part}>
        <h3>Wanted and come out</h3>
        <p className="soft">Left wanted, right come out, ΔE00 beneath; the furthest off first.</p>
        <SwatchPairs patches={of('colour')} label="Colours" />
      </div>
      {of('neutral').length > 0 && (
        <div className={styles.part}>
          <h3>Greys</h3>
          <SwatchPairs patches={of('neutral')} label="Greys" />
        </div>
      )}
      {of('limited').length > 0 && (
        <div className={styles.part}>
          <h3>Colours the path cannot reach</h3>
          <p className="soft">
            Asked for on purpose, to see what takes their place; not part of the verdict.
          </p>
          <SwatchPairs patches={of('limited')} label="Colours out of reach" />
        </div>
      )}
      {checks.length > 1 && (
        <div className={styles.part}>
          <h3>Over time</h3>
          <CheckTrend checks={checks} />
        </div>
      )}
    </div>
  );
}

function Row({ name, spread }: { readonly name: string; readonly spread: PathCheck['overall'] }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>{spread.mean.toFixed(1)}</td>
      <td>{spread.p95.toFixed(1)}</td>
      <td>{spread.max.toFixed(1)}</td>
      <td>{spread.count}</td>
    </tr>
  );
}
