import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import type { Ladder } from '#contract';
import {
  useLadder,
  useLadderReading,
  useRemoveLadder,
  useTestSheet,
  useTestSheetMadeFrom,
} from '../../api/index.js';
import { AskToRemove, ProblemNote, Told } from '../../frame/index.js';
import { PrintStep, Step, type StepState } from '../../test-sheet/index.js';
import { dayText } from '../../words/index.js';
import { isKnown, nextStage } from '../ladder-state.js';
import { useSaidOfLadder } from '../said-of-ladder.js';
import { Courses } from '../window/window-courses.js';
import { WindowView } from '../window/window-view.js';
import { factorsText } from '../words.js';
import { CouponTable } from './coupon-table.js';
import styles from './ladder.module.css';
import { PressStep } from './press-step.js';
import { ReadStep } from './read-step.js';

type StepName = 'print' | 'press' | 'read';
const names: readonly StepName[] = ['print', 'press', 'read'];

/** One ladder: print, press in order, read or judge; then its window and what to do with it. */
export function LadderPage() {
  const { ladderId } = useParams({ from: '/press/ladders/$ladderId' });
  const ladder = useLadder(ladderId);
  useDocumentTitle(`Ladder ${ladderId} · Dyewright`);
  if (ladder.error) return <ProblemNote error={ladder.error} onAgain={() => void ladder.refetch()} />;
  if (!ladder.data) return <h1>Looking it up…</h1>;
  return <Round key={ladderId} ladder={ladder.data} />;
}

function Round({ ladder }: { readonly ladder: Ladder }) {
  const { sheetId } = ladder;
  const sheet = useTestSheet(sheetId);
  const madeFrom = useTestSheetMadeFrom(sheetId);
  const { said, say } = useSaidOfLadder(sheetId);
  const [opened, setOpened] = useState<StepName | 'none' | null>(null);
  const reading = useLadderReading(sheetId, () => setOpened('none'));
  const removing = useRemoveLadder();
  const navigate = useNavigate();

  const ticked = new Set(said.pressed ?? []);
  const counted = ladder.coupons.filter((coupon) => !coupon.leftOut);
  const known = counted.filter(isKnown);
  const done: Record<StepName, boolean> = {
    print: said.printed === true || ticked.size > 0 || known.length > 0,
    press: counted.every((coupon) => ticked.has(coupon.number) || isKnown(coupon)),
    read: counted.length > 0 && known.length === counted.length,
  };
  const now = names.find((name) => !done[name]) ?? null;
  // Once there is a window the steps are behind; work under way is shown, also after a reload.
  const open = opened ?? (reading.busy ? 'read' : ladder.window ? 'none' : (now ?? 'read'));
  const stepState = (name: StepName): StepState => (done[name] ? 'done' : name === now ? 'now' : 'later');
  const stepProps = (name: StepName) => ({
    number: names.indexOf(name) + 1,
    state: stepState(name),
    open: open === name,
    onToggle: () => setOpened(open === name ? 'none' : name),
  });
  const steps = (
    <div className={styles.steps}>
      <Step {...stepProps('print')} title="Print it by your own route">
        {sheet.error && <ProblemNote error={sheet.error} />}
        {sheet.data && (
          <PrintStep
            sheet={sheet.data}
            setup={madeFrom.data?.setup ?? null}
            onPrinted={() => {
              say({ printed: true });
              setOpened('press');
            }}
          />
        )}
      </Step>
      <Step
        {...stepProps('press')}
        title="Press the coupons, in this order"
        outcome={ticked.size > 0 && !done.press ? `${ticked.size} of ${counted.length} pressed` : undefined}
      >
        <PressStep
          ladder={ladder}
          blank={madeFrom.data?.blank ?? null}
          pressed={ticked}
          onTick={(number, isPressed) => {
            const next = new Set(ticked);
            if (isPressed) next.add(number);
            else next.delete(number);
            say({ printed: true, pressed: [...next].sort((one, two) => one - two) });
          }}
          onAllPressed={() => {
            say({ printed: true, pressed: ladder.coupons.map(({ number }) => number) });
            setOpened('read');
          }}
        />
      </Step>
      <Step
        {...stepProps('read')}
        title="Have them read, or judge by eye"
        outcome={known.length > 0 ? `${known.length} of ${counted.length} coupons` : undefined}
      >
        <ReadStep ladder={ladder} work={reading} />
        {ladder.missing && known.length > 0 && (
          <p className={styles.missing}>
            <Told text={ladder.missing} />
          </p>
        )}
      </Step>
    </div>
  );
  return (
    <div className={styles.page}>
      <div className={styles.lead}>
        <p className={styles.kind}>Ladder {sheetId}</p>
        <h1>
          <Told text={headline(ladder, nextStage(ladder, said), ticked.size)} />
        </h1>
        <p className="soft">
          {ladder.coupons.length} coupons in steps of {factorsText(ladder.plan.factors)} on {ladder.blankName}
          , printed with {ladder.setupName}
          {ladder.plan.pressName ? `, pressed on ${ladder.plan.pressName}` : ''}.
          {sheet.data && ` Made ${dayText(sheet.data.createdAt)}.`}
          {ladder.demo && ' A demo record: all of it invented.'}
        </p>
      </div>
      {ladder.window ? (
        <>
          <WindowView ladder={ladder} />
          <Courses ladder={ladder} />
          <CouponTable ladder={ladder} />
          {steps}
        </>
      ) : (
        <>
          {steps}
          {known.length > 0 && <CouponTable ladder={ladder} />}
        </>
      )}
      <div className={styles.foot}>
        <Link to="/press">All of Press</Link>
        <AskToRemove
          what={`ladder ${sheetId}`}
          onRemove={() => removing.mutate(sheetId, { onSuccess: () => void navigate({ to: '/press' }) })}
        />
        {removing.error && <ProblemNote error={removing.error} />}
      </div>
    </div>
  );
}

function headline(ladder: Ladder, next: ReturnType<typeof nextStage>, ticked: number): string {
  if (ladder.window) return ladder.standing;
  if (next === 'pressed') {
    return ticked === 0
      ? 'The coupons are made. Print them and press them in steps.'
      : `Go on pressing: ${ladder.coupons.length - ticked} to go.`;
  }
  return next === 'read' ? 'Next: have the coupons read, or judge them by eye.' : ladder.standing;
}
