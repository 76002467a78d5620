import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import {
  useCheckPath,
  useChecksOfPath,
  useColourPaths,
  useLearning,
  useReadings,
  useReadingWork,
  useRemoveTestSheet,
  useStandings,
  useTestSheet,
  useTestSheetMadeFrom,
} from '../../api/index.js';
import { AskToRemove, ProblemNote } from '../../frame/index.js';
import { PrintStep, Step, type StepState } from '../../test-sheet/index.js';
import { dayText, gradeText } from '../../words/index.js';
import { ReadingView } from '../reading/reading-view.js';
import { roundState } from '../round-state.js';
import { useSaidOfSheet } from '../said-of-sheet.js';
import { fromNames, kindNames, momentText, nextNames } from '../words.js';
import { CheckStep } from './check-step.js';
import { LearnStep } from './learn-step.js';
import { PickStep } from './pick-step.js';
import { PressStep } from './press-step.js';

import { ReadStep } from './read-step.js';
import styles from './round.module.css';

type StepName = 'print' | 'press' | 'read' | 'end';

/** One test sheet's round: print, press, read, learn, each unfolding in place. */
export function RoundPage() {
  const { sheetId } = useParams({ from: '/measure/sheets/$sheetId' });
  return <Round key={sheetId} sheetId={sheetId} />;
}

function Round({ sheetId }: { readonly sheetId: string }) {
  const sheet = useTestSheet(sheetId);
  const readings = useReadings(sheetId);
  const paths = useColourPaths();
  const madeFrom = useTestSheetMadeFrom(sheetId);
  const { said, say } = useSaidOfSheet(sheetId);
  const [opened, setOpened] = useState<StepName | 'none' | null>(null);
  const [readingId, setReadingId] = useState<string | null>(null);
  const removing = useRemoveTestSheet();
  const navigate = useNavigate();
  const order = sheet.data?.order;
  const basePathId = order && 'pathId' in order ? (order.pathId ?? null) : null;
  const isCheck = sheet.data?.kind === 'check';
  const checks = useChecksOfPath(isCheck ? basePathId : null);
  const checking = useCheckPath(basePathId ?? '');
  const onRead = (id: string) => {
    setReadingId(id);
    setOpened('end');
    say({ printed: true });
    if (isCheck && basePathId) checking.mutate(id);
  };
  // Whether the path made from this sheet has been checked.
  const ids = new Set(readings.data?.map((one) => one.id));
  const standings = useStandings(
    (paths.data ?? [])
      .filter((path) => path.measurement?.readingIds.some((id) => ids.has(id)))
      .map((path) => path.id),
  );
  const reading = useReadingWork(sheetId, onRead);
  const learning = useLearning(sheetId, () => setOpened('end'));
  useDocumentTitle(`${sheet.data ? kindNames[sheet.data.kind] : 'Sheet'} ${sheetId} · Dyewright`);
  if (sheet.error) return <ProblemNote error={sheet.error} onAgain={() => void sheet.refetch()} />;
  if (!sheet.data || !readings.data) {
    return readings.error ? <ProblemNote error={readings.error} /> : <h1>Looking it up…</h1>;
  }
  const { kind } = sheet.data;
  const all = [...readings.data].sort((one, two) => two.createdAt.localeCompare(one.createdAt));
  const state = roundState(sheet.data, {
    readings: all,
    paths: paths.data ?? [],
    standings: standings.flatMap((query) => (query.data ? [query.data] : [])),
    judged: checks.data?.some((check) => check.sheetId === sheetId) ?? false,
    said,
  });
  // As they were when the sheet was made: the path will belong to these.
  const setup = madeFrom.data?.setup ?? null;
  const blank = madeFrom.data?.blank ?? null;
  const base = paths.data?.find((one) => one.id === basePathId) ?? null;
  const shown = all.find((one) => one.id === readingId) ?? all[0] ?? null;

  const reads = kind === 'colour' || kind === 'follow-up' || kind === 'check';
  const names: readonly StepName[] =
    kind === 'palette'
      ? ['print', 'press']
      : reads
        ? ['print', 'press', 'read', 'end']
        : ['print', 'press', 'end'];
  const wasPressed = state.stages.some((one) => one.stage === 'pressed' && one.done);
  const done: Record<StepName, boolean> = {
    print: said.printed === true || wasPressed || all.length > 0,
    press: wasPressed,
    read: all.some((one) => one.subject === 'piece'),
    end: state.next === null || state.path !== null,
  };
  const now = names.find((name) => !done[name]) ?? names.at(-1) ?? 'print';
  // Work that is under way is shown, also after a reload.
  const open = opened ?? (reading.busy ? 'read' : learning.busy ? 'end' : now);
  const stepState = (name: StepName): StepState => (done[name] ? 'done' : name === now ? 'now' : 'later');
  const stepProps = (name: StepName) => ({
    number: names.indexOf(name) + 1,
    state: stepState(name),
    open: open === name,
    onToggle: () => setOpened(open === name ? 'none' : name),
  });
  const learn = (
    <LearnStep sheet={sheet.data} readings={all} base={base} path={state.path} learning={learning} />
  );
  return (
    <div className={styles.page}>
      <div className={styles.lead}>
        <p className={styles.kind}>
          {kindNames[kind]} {sheetId}
        </p>
        <h1>{headline(state, sheet.data.blankName)}</h1>
        <p className="soft">
          {patchWords(sheet.data.patches, kind)} For {sheet.data.blankName}, printed with{' '}
          {sheet.data.setupName}
          {sheet.data.pathName ? `, through “${sheet.data.pathName}”` : ''}. Made{' '}
          {dayText(sheet.data.createdAt)}.{sheet.data.demo && ' A demo record: all of it invented.'}
        </p>
      </div>
      <div className={styles.steps}>
        <Step {...stepProps('print')} title="Print it by your own route">
          <PrintStep
            sheet={sheet.data}
            setup={setup}
            onPrinted={() => {
              say({ printed: true });
              setOpened('press');
            }}
          />
        </Step>
        <Step {...stepProps('press')} title="Press it">
          <PressStep
            blankName={sheet.data.blankName}
            blank={blank}
            onPressed={() => {
              say({ printed: true, pressed: true });
              setOpened(names[2] ?? 'none');
            }}
          />
        </Step>
        {reads && (
          <Step
            {...stepProps('read')}
            title="Have it read"
            outcome={shown ? `${fromNames[shown.from]}, ${gradeText(shown.grade)}` : undefined}
          >
            <ReadStep sheet={sheet.data} work={reading} onRead={onRead} />
          </Step>
        )}
        {reads && (
          <Step
            {...stepProps('end')}
            title={isCheck ? 'See how near it comes' : 'See what was read, and learn'}
            outcome={state.path?.name}
          >
            {all.length > 1 && shown && (
              <p className={styles.readings}>
                Read {all.length === 2 ? 'twice' : `${all.length} times`}:{' '}
                {all.map((one) => (
                  <button
                    key={one.id}
                    type="button"
                    className="link-button"
                    aria-pressed={one.id === shown.id}
                    onClick={() => setReadingId(one.id)}
                  >
                    {fromNames[one.from]} of the {one.subject}, {momentText(one.createdAt)}
                  </button>
                ))}
              </p>
            )}
            {isCheck ? (
              <>
                {checking.error && <ProblemNote error={checking.error} />}
                {basePathId && <CheckStep pathId={basePathId} readings={all} checks={checks.data ?? []} />}
                {shown && (
                  <details className={styles.fold}>
                    <summary>What was read</summary>
                    <ReadingView reading={shown} />
                  </details>
                )}
              </>
            ) : state.path && shown ? (
              <>
                {learn}
                <details className={styles.fold}>
                  <summary>What was read</summary>
                  <ReadingView reading={shown} />
                </details>
              </>
            ) : shown ? (
              <ReadingView reading={shown}>{learn}</ReadingView>
            ) : (
              learn
            )}
          </Step>
        )}
        {kind === 'grey' && (
          <Step {...stepProps('end')} title="Pick the greys" outcome={state.path?.name}>
            <PickStep sheet={sheet.data} path={state.path} onLearnt={(pathId) => say({ pathId })} />
          </Step>
        )}
      </div>
      <div className={styles.foot}>
        <Link to="/measure">All rounds</Link>
        <AskToRemove
          what={`sheet ${sheetId}`}
          onRemove={() =>
            removing.mutate(sheetId, { onSuccess: () => void navigate({ to: '/measure', search: {} }) })
          }
        />
        {removing.error && <ProblemNote error={removing.error} />}
      </div>
    </div>
  );
}

function headline({ next, path, stages, sheet }: ReturnType<typeof roundState>, blankName: string): string {
  if (next === null) {
    if (sheet.kind === 'palette') return 'Printed and pressed: choose from it.';
    if (sheet.kind === 'check') return 'Read, and held against the path.';
    return path ? `“${path.name}” is learnt.` : `${blankName}: done.`;
  }
  if (next === 'checked' && path) return `“${path.name}” is learnt. A check will tell whether it holds.`;
  const isNew = stages.filter((one) => one.done).length === 1;
  return isNew ? 'The sheet is made. Print and press it.' : `Next: ${lower(nextNames[next])}.`;
}
const lower = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);
const patchWords = (patches: number, kind: string) =>
  kind === 'grey' || patches === 0
    ? ''
    : kind === 'palette'
      ? patches === 1
        ? 'One swatch.'
        : `${patches} swatches.`
      : `${patches} patches.`;
