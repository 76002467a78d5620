import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate, useParams } from '@tanstack/react-router';
import { useReading, useRemoveReading, useTestSheet } from '../../api/index.js';
import { AskToRemove, ProblemNote } from '../../frame/index.js';
import { dayText } from '../../words/index.js';
import { fromNames } from '../words.js';
import { LearnAlone } from './learn-alone.js';
import styles from './reading.module.css';
import { ReadingView } from './reading-view.js';

/** One reading at its own address. */
export function ReadingPage() {
  const { readingId } = useParams({ from: '/readings/$readingId' });
  const reading = useReading(readingId);
  const removing = useRemoveReading();
  const sheet = useTestSheet(reading.data?.sheetId ?? null);
  const navigate = useNavigate();
  useDocumentTitle('What was read · Dyewright');
  if (reading.error) return <ProblemNote error={reading.error} />;
  if (!reading.data) return <h1>Looking it up…</h1>;
  const { sheetId, sheetKind, subject, from, fileName, createdAt, demo } = reading.data;
  return (
    <div className={styles.page}>
      <div className={styles.said}>
        <h1>What was read from {fileName}</h1>
        <p className="soft">
          A {fromNames[from]} of{' '}
          {sheet.error ? (
            `sheet ${sheetId}, not in this shop’s record`
          ) : (
            <Link to="/measure/sheets/$sheetId" params={{ sheetId }}>
              sheet {sheetId}
            </Link>
          )}
          , {dayText(createdAt)}.{demo && ' A demo record: all of it invented.'}
        </p>
      </div>
      {sheet.data && subject === 'piece' && (
        <p>
          <Link to="/measure/sheets/$sheetId" params={{ sheetId }} className={styles.onward}>
            On with its round
          </Link>
        </p>
      )}
      <ReadingView reading={reading.data}>
        {sheet.error && subject === 'piece' && (sheetKind === 'colour' || sheetKind === 'follow-up') && (
          <LearnAlone reading={reading.data} />
        )}
      </ReadingView>
      <div className="row">
        <AskToRemove
          what="this reading"
          onRemove={() =>
            removing.mutate(readingId, {
              onSuccess: () => void navigate({ to: '/measure/sheets/$sheetId', params: { sheetId } }),
            })
          }
        />
      </div>
      {removing.error && <ProblemNote error={removing.error} />}
    </div>
  );
}
