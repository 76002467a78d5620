import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import type { EvennessReadingFacts, TestSheet } from '#contract';
import {
  useBlanks,
  useEvennessReading,
  useEvennessReadings,
  useEvennessWork,
  usePresses,
  useRemoveEvenness,
  useRemoveTestSheet,
  useSetups,
  useTestSheet,
  useTestSheetMadeFrom,
} from '../api/index.js';
import { AskToRemove, ProblemNote } from '../frame/index.js';
import { PrintStep, Step, type StepState } from '../test-sheet/index.js';
import { dayText, deltaText, momentText } from '../words/index.js';
import styles from './evenness.module.css';
import { EvennessPressStep } from './evenness-press-step.js';
import { EvennessReadStep } from './evenness-read-step.js';
import { EvennessView } from './evenness-view.js';
import { useSaidOfEvenness } from './said-of-sheet.js';

/** One evenness sheet with its readings; the address names the sheet or one of its readings. */
export function EvennessPage() {
  const { id } = useParams({ from: '/press/evenness/$id' });
  const sheet = useTestSheet(id);
  const named = useEvennessReading(sheet.error ? id : null);
  useDocumentTitle('Evenness · Dyewright');
  const ofNamed = useTestSheet(named.data?.sheetId ?? null);
  if (sheet.data) return <Round key={id} sheet={sheet.data} namedId={null} />;
  if (named.data) {
    if (ofNamed.data) return <Round key={id} sheet={ofNamed.data} namedId={named.data.id} />;
    if (ofNamed.error) return <Alone reading={named.data} />;
  }
  if (named.error) return <ProblemNote error={sheet.error ?? named.error} />;
  return <h1>Looking it up…</h1>;
}

type StepName = 'print' | 'press' | 'read';
const stepNames: readonly StepName[] = ['print', 'press', 'read'];

function Round({ sheet, namedId }: { readonly sheet: TestSheet; readonly namedId: string | null }) {
  const navigate = useNavigate();
  const readings = useEvennessReadings({ sheetId: sheet.id });
  const madeFrom = useTestSheetMadeFrom(sheet.id);
  const blanks = useBlanks();
  const setups = useSetups();
  const presses = usePresses();
  const { said, say } = useSaidOfEvenness(sheet.id);
  const [shownId, setShownId] = useState(namedId);
  const [opened, setOpened] = useState<StepName | 'none' | null>(null);
  const removing = useRemoveTestSheet();
  const work = useEvennessWork(sheet.id, (readingId) => {
    setShownId(readingId);
    setOpened('none');
    window.scrollTo({ top: 0 });
  });
  if (readings.error) return <ProblemNote error={readings.error} onAgain={() => void readings.refetch()} />;
  if (!readings.data) return <h1>Looking it up…</h1>;

  const newestFirst = [...readings.data].sort((one, two) => two.createdAt.localeCompare(one.createdAt));
  const shown = newestFirst.find((one) => one.id === shownId) ?? newestFirst[0] ?? null;
  const pressId = sheet.evenness?.pressId ?? null;
  const press = presses.data?.find((one) => one.id === pressId) ?? null;
  const order = sheet.order;
  const blank = madeFrom.data?.blank ?? blanks.data?.find((one) => one.id === order.blankId) ?? null;
  const setup = madeFrom.data?.setup ?? setups.data?.find((one) => one.id === order.setupId) ?? null;
  const isRead = newestFirst.length > 0;
  const done: Record<StepName, boolean> = {
    print: said.printed === true || said.pressed === true || isRead,
    press: said.pressed === true || isRead,
    read: isRead,
  };
  const now = stepNames.find((name) => !done[name]) ?? null;
  const open = opened ?? (work.busy ? 'read' : now);
  const stepProps = (name: StepName) => ({
    number: stepNames.indexOf(name) + 1,
    state: (done[name] ? 'done' : name === now ? 'now' : 'later') as StepState,
    open: open === name,
    onToggle: () => setOpened(open === name ? 'none' : name),
  });
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <p className={styles.name}>
          Evenness sheet {sheet.id}
          {press ? `, ${press.name}` : ''}
          {sheet.demo && <span className="demo-word"> · demo, invented</span>}
        </p>
        <h1>
          {shown
            ? (shown.sentences[0] ?? 'Read.')
            : done.press
              ? 'Next: scan it, and have it read.'
              : done.print
                ? 'Next: press it over the whole platen.'
                : 'The sheet is made. Print and press it.'}
        </h1>
        <p className="soft">
          On {sheet.blankName}, printed with {sheet.setupName}. Made {dayText(sheet.createdAt)}.
        </p>
      </header>
      {shown && <EvennessView key={shown.id} reading={shown} />}
      {shown && <ReadingList shown={shown} of={newestFirst} onShow={setShownId} />}
      <div className={styles.steps}>
        <Step {...stepProps('print')} title={isRead ? 'Print it again' : 'Print it by your own route'}>
          <PrintStep
            sheet={sheet}
            setup={setup}
            onPrinted={() => {
              say({ printed: true });
              setOpened('press');
            }}
          />
        </Step>
        <Step {...stepProps('press')} title={isRead ? 'Press it again' : 'Press it over the whole platen'}>
          <EvennessPressStep
            blank={blank}
            press={press}
            onPressed={() => {
              say({ printed: true, pressed: true });
              setOpened('read');
            }}
          />
        </Step>
        <Step {...stepProps('read')} title={isRead ? 'Have another pressing read' : 'Have it read'}>
          <EvennessReadStep sheetId={sheet.id} pressId={pressId} work={work} />
        </Step>
      </div>
      <div className={styles.foot}>
        <Link to="/press">Press</Link>
        {press && (
          <Link to="/press/platen/$pressId" params={{ pressId: press.id }}>
            Temperatures of {press.name}
          </Link>
        )}
        <AskToRemove
          what={`sheet ${sheet.id}`}
          onRemove={() => removing.mutate(sheet.id, { onSuccess: () => void navigate({ to: '/press' }) })}
        />
        {removing.error && <ProblemNote error={removing.error} />}
      </div>
    </div>
  );
}

/** Readings of the same press or sheet: how evenness went over time. */
function ReadingList(props: {
  readonly shown: EvennessReadingFacts;
  readonly of: readonly EvennessReadingFacts[];
  onShow(id: string): void;
}) {
  const { shown, onShow } = props;
  const ofPress = useEvennessReadings(
    shown.pressId === null ? {} : { pressId: shown.pressId },
    shown.pressId !== null,
  );
  const removing = useRemoveEvenness();
  const known = new Map(props.of.map((one) => [one.id, one]));
  for (const one of ofPress.data ?? []) known.set(one.id, one);
  const all = [...known.values()].sort((one, two) => two.createdAt.localeCompare(one.createdAt));
  return (
    <section aria-labelledby="readings-title" className={styles.section}>
      <h2 id="readings-title">Over time</h2>
      <ul className={styles.history}>
        {all.map((one) => (
          <li key={one.id}>
            <span className={styles.historyWords}>
              <strong>
                {momentText(one.createdAt)}
                {one.pressName ? `, ${one.pressName}` : ''}
              </strong>
              <span className="soft">
                {deltaText(one.meanDeltaE00)} on average;{' '}
                {one.findings.map((found) => kindWords[found.kind]).join(', ')}
              </span>
            </span>
            {all.length > 1 &&
              (one.id === shown.id ? (
                <span className="soft">Shown above</span>
              ) : one.sheetId === shown.sheetId ? (
                <button type="button" className="link-button" onClick={() => onShow(one.id)}>
                  Look at it<span className="said-only">: {momentText(one.createdAt)}</span>
                </button>
              ) : (
                <Link to="/press/evenness/$id" params={{ id: one.id }}>
                  Look at it<span className="said-only">: {momentText(one.createdAt)}</span>
                </Link>
              ))}
            {one.sheetId === shown.sheetId && (
              <AskToRemove
                what={`the reading of ${momentText(one.createdAt)}`}
                onRemove={() => removing.mutate(one.id)}
              />
            )}
          </li>
        ))}
      </ul>
      {removing.error && <ProblemNote error={removing.error} />}
    </section>
  );
}

const kindWords: Record<EvennessReadingFacts['findings'][number]['kind'], string> = {
  tilt: 'one side paler',
  rim: 'edges paler',
  spot: 'a spot',
  even: 'even',
};

/** A reading whose sheet is no longer kept. */
function Alone({ reading }: { readonly reading: EvennessReadingFacts }) {
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <p className={styles.name}>Evenness, read from {reading.fileName}</p>
        <h1>{reading.sentences[0] ?? 'Read.'}</h1>
        <p className="soft">Its sheet is no longer in this shop’s record.</p>
      </header>
      <EvennessView reading={reading} />
      <p>
        <Link to="/press">Press</Link>
      </p>
    </div>
  );
}
