import { Radio, Select } from '@mantine/core';
import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate, useSearch } from '@tanstack/react-router';
import { useState } from 'react';
import type { SheetOutputOptions, TestSheetOrderInput } from '#contract';
import { useBlanks, usePresses, useSetups, useTestSheetMaking, useTestSheetProposal } from '../api/index.js';
import { LengthField, ProblemNote, usePreferences } from '../frame/index.js';
import {
  BlankField,
  FormatField,
  lastSetup,
  MakeBlock,
  rememberSetup,
  SheetPreview,
} from '../test-sheet/index.js';
import { sizeText } from '../words/index.js';
import styles from './evenness.module.css';
import type { EvennessSearch } from './search.js';

/** From three choices to a made evenness sheet, the sheet beside them. */
export function NewEvennessPage() {
  useDocumentTitle('An evenness sheet · Dyewright');
  const search = useSearch({ from: '/press/evenness/new' });
  const navigate = useNavigate({ from: '/press/evenness/new' });
  const { lengthUnit } = usePreferences();
  const presses = usePresses();
  const setups = useSetups();
  const blanks = useBlanks();
  const [ownMm, setOwnMm] = useState<{ widthMm: number; heightMm: number } | null>(null);
  const [format, setFormat] = useState<SheetOutputOptions['format']>('pdf');
  const making = useTestSheetMaking((id) => {
    void navigate({ to: '/press/evenness/$id', params: { id } });
  });
  const choose = (next: Partial<EvennessSearch>) => {
    if (next.setup) rememberSetup(next.setup);
    void navigate({ search: (old) => ({ ...old, ...next }), replace: true, resetScroll: false });
  };
  const setupId = search.setup ?? lastSetup();
  const flat = presses.data?.filter((one) => one.kind === 'flat') ?? [];
  const press = presses.data?.find((one) => one.id === search.press) ?? null;
  const setup =
    setups.data?.find((one) => one.id === setupId) ??
    (setups.data?.length === 1 ? (setups.data[0] ?? null) : null);
  const blank = blanks.data?.find((one) => one.id === search.blank) ?? null;
  const order: TestSheetOrderInput | null =
    setup && blank
      ? {
          kind: 'evenness',
          setupId: setup.id,
          blankId: blank.id,
          ...(press ? { pressId: press.id } : {}),
          ...(ownMm ?? {}),
        }
      : null;
  const proposal = useTestSheetProposal(order);
  const standing = order ? (proposal.data?.standing ?? null) : null;
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <h1>An evenness sheet</h1>
        <p>
          One middle grey, pressed over the whole platen. Where less heat or pressure comes, less dye goes
          over: scanned, it is a map of your press.
        </p>
      </header>
      {[presses, setups, blanks].map(
        (query, i) =>
          query.error && <ProblemNote key={['presses', 'setups', 'blanks'][i]} error={query.error} />,
      )}
      <form
        className={styles.columns}
        aria-label="An evenness sheet"
        onSubmit={(event) => {
          event.preventDefault();
          if (order && proposal.data?.possible && !making.busy) making.make(order, { format });
        }}
      >
        <div className={styles.fields}>
          <div>
            <Select
              size="md"
              label="For the press"
              placeholder="Which press?"
              clearable
              clearButtonProps={{ 'aria-label': 'No press named' }}
              data={flat.map((one) => ({ value: one.id, label: one.name }))}
              value={press?.id ?? null}
              onChange={(id) => choose({ press: id ?? undefined })}
              description={
                press
                  ? `platen ${sizeText(press.platenWidthMm, press.platenDepthMm, lengthUnit)}`
                  : 'So that its maps can be held against one another'
              }
            />
            {presses.data && flat.length === 0 && (
              <p className={styles.aside}>
                <Link to="/setups" search={{ open: 'new-press' }}>
                  Add your press
                </Link>
              </p>
            )}
          </div>
          <Select
            size="md"
            label="Printed with"
            placeholder="Which print setup?"
            data={(setups.data ?? []).map((one) => ({ value: one.id, label: one.name }))}
            value={setup?.id ?? null}
            onChange={(id) => id !== null && choose({ setup: id })}
            description={setup ? `${setup.printer}; ${setup.ink}` : undefined}
          />
          <BlankField
            blanks={blanks.data ?? []}
            blank={blank}
            after="White polyester cloth or a coated sheet as large as the platen shows it best."
            onPick={(id) => choose({ blank: id })}
          />
          <Radio.Group
            size="md"
            label="How large"
            value={ownMm ? 'own' : 'platen'}
            onChange={(value) =>
              setOwnMm(
                value === 'own'
                  ? {
                      widthMm: proposal.data?.widthMm ?? setup?.paper.widthMm ?? 210,
                      heightMm: proposal.data?.heightMm ?? Math.min(297, setup?.paper.heightMm ?? 297),
                    }
                  : null,
              )
            }
          >
            <div className={styles.radios}>
              <Radio
                size="md"
                value="platen"
                label={press ? 'As much of the platen as the paper covers' : 'The whole paper'}
              />
              <Radio size="md" value="own" label="Another size" />
            </div>
            {ownMm && (
              <div className={styles.own}>
                <LengthField
                  label="Sheet, left to right"
                  valueMm={ownMm.widthMm}
                  minMm={40}
                  maxMm={6000}
                  onChange={(widthMm) => setOwnMm({ ...ownMm, widthMm })}
                />
                <LengthField
                  label="Sheet, back to front"
                  valueMm={ownMm.heightMm}
                  minMm={40}
                  maxMm={6000}
                  onChange={(heightMm) => setOwnMm({ ...ownMm, heightMm })}
                />
              </div>
            )}
          </Radio.Group>
          <FormatField label="The file" value={format} onChange={setFormat} />
        </div>
        <div className={styles.preview}>
          <SheetPreview
            order={order}
            proposal={proposal.data ?? null}
            missing={
              setup
                ? 'Say what it is pressed on, and the sheet is drawn here.'
                : 'Say what it is printed with, and the sheet is drawn here.'
            }
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
            words="Make the sheet"
          />
        </div>
      </form>
    </div>
  );
}
