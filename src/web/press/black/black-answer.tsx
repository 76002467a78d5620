import { Link } from '@tanstack/react-router';
import type { BlackAnswer, EstimateFacts, Ladder } from '#contract';
import { Told, usePreferences } from '../../frame/index.js';
import { dayText, secondsText, signed, sizeK } from '../../words/index.js';
import { CouponMark } from '../coupon-mark.js';
import styles from './black.module.css';
import { verdictHead } from './black-field.js';

/** The verdict in words, what to change by how much, and what it rests on. */
export function BlackAnswerView({
  answer,
  ladders,
}: {
  readonly answer: BlackAnswer;
  readonly ladders: readonly Ladder[];
}) {
  const { temperatureUnit } = usePreferences();
  const { verdict, seconds, kelvin, restsOn } = answer;
  const ladder = ladders.find((one) => one.sheetId === answer.ladderId);
  return (
    <section aria-label="Verdict" className={styles.verdict}>
      <h2>
        <svg width={34} height={34} viewBox="-17 -17 34 34" aria-hidden="true">
          <rect x={-17} y={-17} width={34} height={34} rx={5} fill="#8c8c8c" />
          <CouponMark black="#2b2b2b" verdict={verdict} x={0} y={0} side={26} />
        </svg>
        {verdictHead[verdict]}
      </h2>
      <p role="status" className={styles.words}>
        <Told text={answer.words} />
      </p>
      {verdict !== 'right' && (
        <dl className={styles.change}>
          <div>
            <dt>{verdict === 'under' ? 'Add' : 'Take away'}</dt>
            <dd>
              {secondsText(Math.abs(seconds.value))}
              <span className="soft">{between(seconds, (value) => secondsText(value))}</span>
            </dd>
          </div>
          <div>
            <dt>or {verdict === 'under' ? 'hotter' : 'cooler'} by</dt>
            <dd>
              {sizeK(kelvin.value, temperatureUnit)}
              <span className="soft">
                {between(kelvin, (value) => sizeK(value, temperatureUnit))}; not both
              </span>
            </dd>
          </div>
        </dl>
      )}
      <p className={styles.rests}>
        {restsOn === 'own ladder' ? (
          <>
            Rests on your own ladder
            {ladder && (
              <>
                {' '}
                of {dayText(ladder.updatedAt)}, {ladder.blankName}:{' '}
                <Link to="/press/ladders/$ladderId" params={{ ladderId: ladder.sheetId }}>
                  see it
                </Link>
              </>
            )}
            .
          </>
        ) : (
          <>
            Rests on common practice only: the direction is sound, the size a rule of thumb.{' '}
            <Link to="/press/ladder/new">A ladder of your own</Link> tells it.
          </>
        )}
      </p>
      {answer.remarks.length > 0 && (
        <ul className={styles.remarks}>
          {answer.remarks.map((remark) => (
            <li key={remark}>
              <Told text={remark} />
            </li>
          ))}
        </ul>
      )}
      <p className="soft">
        Leans{' '}
        {Math.abs(answer.hue) < 0.05
          ? 'neither way'
          : `${signed(Math.abs(answer.hue), 1)} towards ${answer.hue < 0 ? 'green' : 'brown'}`}{' '}
        (CIELAB units). The maker’s range for the blank comes first.
      </p>
    </section>
  );
}

/** 'likely 4 s to 9 s': sizes, the smaller first. */
function between(estimate: EstimateFacts, text: (value: number) => string): string {
  const [low, high] = [estimate.low, estimate.high];
  // On both sides of nothing: it may be none at all.
  if (low < 0 && high > 0) return `likely 0 to ${text(Math.max(-low, high))}, either way`;
  const sizes = [Math.abs(low), Math.abs(high)].sort((one, two) => one - two);
  return `likely ${text(sizes[0] ?? 0)} to ${text(sizes[1] ?? 0)}`;
}
