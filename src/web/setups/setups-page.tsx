import { Button } from '@mantine/core';
import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useSearch } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { Blank, ColourPath, PrintSetup } from '#contract';
import { useBlanks, useColourPaths, usePresses, useSetups } from '../api/index.js';
import { BlankDrawing, ProblemNote, usePreferences } from '../frame/index.js';
import {
  blankSizeText,
  materialNames,
  pathText,
  pressFacts,
  pressKindNames,
  sizeText,
  temperatureText,
  timeText,
} from '../words/index.js';
import { BlankForm } from './blank-form.js';
import { ColourPaths } from './colour-paths.js';
import { newBlank, newPress, newSetup } from './new-records.js';
import { PressForm } from './press-form.js';
import { SetupForm } from './setup-form.js';
import styles from './setups.module.css';

/** What the shop works with: print setups, presses, blanks, colour paths. Each unfolds where it stands. */
export function SetupsPage() {
  useDocumentTitle('Setups · Dyewright');
  const { open } = useSearch({ from: '/setups' });
  const navigate = useNavigate({ from: '/setups' });
  const show = (what: string | undefined) =>
    void navigate({ search: what ? { open: what } : {}, resetScroll: false });
  const blanks = useBlanks();
  const setups = useSetups();
  const presses = usePresses();
  const paths = useColourPaths();
  const { lengthUnit, temperatureUnit } = usePreferences();
  const close = () => show(undefined);
  const materials = (Object.keys(materialNames) as Blank['material'][]).filter((m) =>
    blanks.data?.some((b) => b.material === m),
  );

  return (
    <div className={styles.page}>
      <h1>What this shop works with</h1>

      <section aria-labelledby="setups-title" className={styles.section}>
        <div className={styles.heading}>
          <h2 id="setups-title">Print setups</h2>
          <Button variant="default" onClick={() => show('new-setup')}>
            Add a print setup
          </Button>
        </div>
        <p className="soft">The whole route from file to paper: printer, its settings, ink and paper.</p>
        {setups.error && <ProblemNote error={setups.error} />}
        {open === 'new-setup' && (
          <SetupForm setup={newSetup} isNew taken={setups.data ?? []} onClose={close} />
        )}
        <ul className={styles.list}>
          {setups.data?.map((setup) => (
            <li key={setup.id}>
              <Row
                open={open === `setup:${setup.id}`}
                onToggle={() => show(open === `setup:${setup.id}` ? undefined : `setup:${setup.id}`)}
                name={setup.name}
                demo={setup.demo}
                facts={setupFacts(setup, paths.data, lengthUnit)}
              />
              {open === `setup:${setup.id}` && (
                <SetupForm setup={setup} taken={setups.data} onClose={close} />
              )}
            </li>
          ))}
        </ul>
      </section>

      <section aria-labelledby="presses-title" className={styles.section}>
        <div className={styles.heading}>
          <h2 id="presses-title">Presses</h2>
          <Button variant="default" onClick={() => show('new-press')}>
            Add a press
          </Button>
        </div>
        <p className="soft">
          Heat presses, mug presses, ovens. With the size of its platen and what it pushes with, a recipe says
          what to set.
        </p>
        {presses.error && <ProblemNote error={presses.error} />}
        {open === 'new-press' && (
          <PressForm press={newPress} isNew taken={presses.data ?? []} onClose={close} />
        )}
        <ul className={styles.list}>
          {presses.data?.map((press) => (
            <li key={press.id}>
              <Row
                open={open === `press:${press.id}`}
                onToggle={() => show(open === `press:${press.id}` ? undefined : `press:${press.id}`)}
                name={press.name}
                demo={press.demo}
                facts={`${pressKindNames[press.kind]} · ${pressFacts(press, lengthUnit)}`}
              />
              {open === `press:${press.id}` && (
                <PressForm press={press} taken={presses.data} onClose={close} />
              )}
            </li>
          ))}
        </ul>
      </section>

      <section aria-labelledby="paths-title" className={styles.section}>
        <ColourPaths adding={open === 'new-path'} />
      </section>

      <section aria-labelledby="blanks-title" className={styles.section}>
        <div className={styles.heading}>
          <h2 id="blanks-title">Blanks</h2>
          <Button variant="default" onClick={() => show('new-blank')}>
            Add a blank
          </Button>
        </div>
        <p className="soft">
          What is pressed. Measure yours: makers differ, and so do batches. The maker’s recipe comes before
          any written here.
        </p>
        {blanks.error && <ProblemNote error={blanks.error} />}
        {open === 'new-blank' && (
          <BlankForm blank={newBlank} isNew taken={blanks.data ?? []} onClose={close} />
        )}
        {materials.map((material) => (
          <div key={material} className={styles.group}>
            <h3>{materialNames[material]}</h3>
            <ul className={styles.list}>
              {blanks.data
                ?.filter((blank) => blank.material === material)
                .map((blank) => (
                  <li key={blank.id}>
                    <Row
                      open={open === `blank:${blank.id}`}
                      onToggle={() => show(open === `blank:${blank.id}` ? undefined : `blank:${blank.id}`)}
                      name={blank.name}
                      demo={blank.demo}
                      drawing={<BlankDrawing blank={blank} width={56} />}
                      facts={`${blankSizeText(blank.shape, lengthUnit)} · ${temperatureText(blank.recipe.platenC, temperatureUnit)}, ${timeText(blank.recipe.dwellSeconds)}`}
                    />
                    {open === `blank:${blank.id}` && (
                      <BlankForm blank={blank} taken={blanks.data} onClose={close} />
                    )}
                  </li>
                ))}
            </ul>
          </div>
        ))}
      </section>
    </div>
  );
}

const setupFacts = (setup: PrintSetup, paths: readonly ColourPath[] | undefined, unit: 'mm' | 'in') =>
  `${setup.printer} · ${setup.ink} · ${setup.paper.name}, ${setup.paper.roll ? 'roll' : sizeText(setup.paper.widthMm, setup.paper.heightMm, unit)} · ${pathText(setup.colourPathId, paths)}`;

function Row(props: {
  readonly open: boolean;
  onToggle(): void;
  readonly name: string;
  readonly facts: string;
  readonly demo: boolean;
  readonly drawing?: ReactNode;
}) {
  return (
    <button type="button" className={styles.row} aria-expanded={props.open} onClick={props.onToggle}>
      {props.drawing && <span className={styles.drawing}>{props.drawing}</span>}
      <span className={styles.rowWords}>
        <span className={styles.rowName}>
          {props.name}
          {props.demo && <span className="demo-word"> · demo</span>}
        </span>
        <span className="soft">{props.facts}</span>
      </span>
      <span className={styles.change} aria-hidden="true">
        {props.open ? 'close' : 'change'}
      </span>
    </button>
  );
}
