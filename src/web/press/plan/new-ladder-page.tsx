import { Select, Slider } from '@mantine/core';
import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate } from '@tanstack/react-router';
import { useRef, useState } from 'react';
import type { LadderPlanFacts, SheetOutputOptions } from '#contract';
import { useTestSheetMaking, useTestSheetProposal } from '../../api/index.js';
import { ProblemNote, Told, usePreferences } from '../../frame/index.js';
import { BlankField, FormatField, MakeBlock, SheetPreview } from '../../test-sheet/index.js';
import { temperatureText } from '../../words/index.js';
import { FactorFields } from './factor-fields.js';
import styles from './plan.module.css';
import { couponBounds, ladderOrderOf } from './plan-order.js';
import { PlanPicture } from './plan-picture.js';
import { StaysFields } from './stays-fields.js';
import { useLadderChoice } from './use-ladder-choice.js';

/** From a few choices to a made sheet of coupons, the plan drawn beside them as it changes. */
export function NewLadderPage() {
  useDocumentTitle('A ladder · Press · Dyewright');
  const state = useLadderChoice();
  const { choice, change, choose } = state;
  const { temperatureUnit } = usePreferences();
  const navigate = useNavigate();
  const order = ladderOrderOf(choice);
  const proposal = useTestSheetProposal(order);
  const [format, setFormat] = useState<SheetOutputOptions['format']>('pdf');
  const making = useTestSheetMaking((ladderId) => {
    void navigate({ to: '/press/ladders/$ladderId', params: { ladderId } });
  });
  const standing = order ? (proposal.data?.standing ?? null) : null;
  const plan = order ? (proposal.data?.ladder ?? null) : null;
  // Ranges go on being shown while what is typed makes no plan.
  const lastPlan = useRef<{ readonly blankId: string; readonly plan: LadderPlanFacts } | null>(null);
  if (plan && choice.blank && !proposal.isPlaceholderData) {
    lastPlan.current = { blankId: choice.blank.id, plan };
  }
  const shownPlan =
    plan ?? (lastPlan.current?.blankId === choice.blank?.id ? (lastPlan.current?.plan ?? null) : null);
  return (
    <div className={styles.page}>
      <div className={styles.lead}>
        <p>
          <Link to="/press">Press</Link>
        </p>
        <h1>Plan a ladder of coupons.</h1>
        <p className="soft">
          Small coupons of black, colours and fine print, each pressed a little longer or hotter than the
          last. Read back, they tell where all is well, how much it bears, and what to press next.
        </p>
      </div>
      {state.error && <ProblemNote error={state.error} />}
      <form
        className={styles.columns}
        aria-label="A ladder"
        onSubmit={(event) => {
          event.preventDefault();
          if (order && proposal.data?.possible && !making.busy) making.make(order, { format });
        }}
      >
        <div className={styles.fields}>
          <BlankField
            blanks={state.blanks}
            blank={choice.blank}
            onPick={(blank) => choose({ blank })}
            after="The ladder starts from there."
          />
          <Select
            size="md"
            label="Printed with"
            placeholder="Which print setup?"
            data={state.setups.map((setup) => ({ value: setup.id, label: setup.name }))}
            value={choice.setup?.id ?? null}
            onChange={(id) => id !== null && choose({ setup: id })}
          />
          <div>
            <Select
              size="md"
              label="On which press"
              placeholder="A press that is not listed"
              clearable
              clearButtonProps={{ 'aria-label': 'A press that is not listed' }}
              data={state.presses.map((press) => ({ value: press.id, label: press.name }))}
              value={choice.pressId}
              onChange={(id) => choose({ press: id ?? undefined })}
            />
            <p className={styles.aside}>{offsetWords(plan, choice.pressId !== null, temperatureUnit)}</p>
          </div>
          <CouponCount coupons={choice.coupons} onChange={(coupons) => change({ coupons })} />
          <FactorFields choice={choice} plan={shownPlan} onChange={change} />
          {choice.factors.includes('pressure') && order === null && choice.blank && choice.setup && (
            <p className={styles.hint}>
              Give the lowest and the highest pressure that the blank bears; its maker knows.{' '}
              <Link to="/press/force">What a press pushes with</Link>
            </p>
          )}
          <details className={styles.more}>
            <summary>What stays as it is, and what the maker allows</summary>
            <StaysFields choice={choice} plan={shownPlan} onChange={change} />
          </details>
          <details className={styles.more}>
            <summary>The file</summary>
            <FormatField label="Made as" value={format} onChange={setFormat} />
          </details>
        </div>
        <div className={styles.shown}>
          {plan && (
            <>
              <h2>The plan</h2>
              <p>
                <Told text={plan.words} />
              </p>
              <PlanPicture plan={plan} />
            </>
          )}
          <SheetPreview
            order={order && proposal.data?.possible ? order : null}
            proposal={proposal.data ?? null}
            missing={missingWords(choice.blank !== null, choice.setup !== null, order !== null)}
          />
        </div>
        <div className={styles.make}>
          <MakeBlock
            proposal={proposal}
            making={making}
            standing={standing}
            remarks={order ? (proposal.data?.remarks ?? []) : []}
            error={order && proposal.error}
            ready={order !== null && proposal.data?.possible === true}
            words="Make the coupons"
          />
        </div>
      </form>
    </div>
  );
}

/** How many coupons will be spent, and what the number buys. */
function CouponCount({ coupons, onChange }: { readonly coupons: number; onChange(coupons: number): void }) {
  const [shown, setShown] = useState(coupons);
  return (
    <div className={styles.count}>
      <p>
        How many coupons: <strong className="figures">{shown}</strong>
      </p>
      <Slider
        size="md"
        thumbLabel="How many coupons"
        min={couponBounds.least}
        max={couponBounds.most}
        step={1}
        value={shown}
        onChange={setShown}
        onChangeEnd={onChange}
        label={null}
        marks={[4, 9, 12, 16].map((value) => ({ value, label: String(value) }))}
      />
      <p className={styles.aside}>
        {shown < 7
          ? 'A first look: it says which way to go.'
          : shown < 10
            ? 'Usual for one thing; enough for a first answer on two.'
            : 'Enough for time and temperature together.'}
      </p>
    </div>
  );
}

function offsetWords(plan: LadderPlanFacts | null, isNamed: boolean, unit: 'C' | 'F'): string {
  if (!isNamed) return 'Without a press, the temperature its display shows is taken as true.';
  if (!plan) return '';
  if (plan.offsetK === null) return 'Never measured: its display is taken as true.';
  const { platenC } = plan.start;
  return `Measured: set ${temperatureText(platenC - plan.offsetK, unit)} for ${temperatureText(platenC, unit)} at the platen.`;
}

function missingWords(blank: boolean, setup: boolean, order: boolean): string {
  if (!blank) return 'Say what the coupons are pressed on, and they are drawn here.';
  if (!setup) return 'Say what they are printed with, and they are drawn here.';
  return order
    ? 'No sheet yet: see what is in the way.'
    : 'Say what varies and how far, and they are drawn here.';
}
