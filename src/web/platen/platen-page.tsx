import { Button } from '@mantine/core';
import { useDocumentTitle } from '@mantine/hooks';
import { Link, useParams } from '@tanstack/react-router';
import { useRef, useState } from 'react';
import type { PlatenCheck, Press } from '#contract';
import { usePlatenChecks, usePress } from '../api/index.js';
import { ProblemNote, usePreferences } from '../frame/index.js';
import { CheckForm } from './check-form.js';
import { CheckHistory } from './check-history.js';
import { CheckView } from './check-view.js';
import { offsetWords } from './offset-words.js';
import styles from './platen-page.module.css';

/** Whether a press is as hot as it says: its true temperatures, what was found, how that went over time. */
export function PlatenPage() {
  const { pressId } = useParams({ from: '/press/platen/$pressId' });
  const press = usePress(pressId);
  const checks = usePlatenChecks(pressId);
  useDocumentTitle(`${press.data?.name ?? 'Platen'} · Dyewright`);
  if (press.error) return <ProblemNote error={press.error} onAgain={() => void press.refetch()} />;
  if (checks.error) return <ProblemNote error={checks.error} onAgain={() => void checks.refetch()} />;
  if (!press.data || !checks.data) return <h1>Looking it up…</h1>;
  return <Whole key={pressId} press={press.data} checks={checks.data} />;
}

function Whole({ press, checks }: { readonly press: Press; readonly checks: readonly PlatenCheck[] }) {
  const [shownId, setShownId] = useState<string | null>(null);
  const [measuring, setMeasuring] = useState(false);
  const { temperatureUnit } = usePreferences();
  const top = useRef<HTMLHeadingElement>(null);
  const shown = checks.find((one) => one.id === shownId) ?? checks[0] ?? null;
  const open = measuring || checks.length === 0;
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <p className={styles.name}>
          {press.name}
          {press.demo && <span className="demo-word"> · demo, invented</span>}
        </p>
        <h1 ref={top} tabIndex={-1}>
          {shown ? offsetWords(shown, temperatureUnit) : 'Is it as hot as it says?'}
        </h1>
        {!shown && (
          <p>
            Displays of presses are often some degrees off, and platens cooler at their edges. Measure a few
            places: then every recipe says what to set on this press.
          </p>
        )}
      </header>
      {shown && <CheckView press={press} check={shown} />}
      {!open && (
        <div className="row">
          <Button onClick={() => setMeasuring(true)}>Measure it again</Button>
          {press.kind === 'flat' && (
            <Link to="/press/evenness/new" search={{ press: press.id }}>
              Or press an evenness sheet: it shows what the dye makes of it
            </Link>
          )}
        </div>
      )}
      {open && (
        <section aria-labelledby="measure-title" className={styles.section}>
          <div className={styles.heading}>
            <h2 id="measure-title">{shown ? 'Measure it again' : 'Measure it'}</h2>
            {shown && (
              <button type="button" className="link-button" onClick={() => setMeasuring(false)}>
                Not now
              </button>
            )}
          </div>
          <CheckForm
            press={press}
            onKept={(check) => {
              setShownId(check.id);
              setMeasuring(false);
              top.current?.focus();
              top.current?.scrollIntoView({ block: 'start' });
            }}
          />
        </section>
      )}
      {checks.length > 0 && shown && (
        <CheckHistory pressId={press.id} checks={checks} shownId={shown.id} onShow={setShownId} />
      )}
      <p className={styles.foot}>
        <Link to="/press">Press</Link>
        <Link to="/press/force" search={{ press: press.id }}>
          What it pushes with
        </Link>
        <Link to="/setups" search={{ open: `press:${press.id}` }}>
          This press in Setups
        </Link>
        {checks.length === 0 && press.kind === 'flat' && (
          <Link to="/press/evenness/new" search={{ press: press.id }}>
            An evenness sheet instead
          </Link>
        )}
      </p>
    </div>
  );
}
