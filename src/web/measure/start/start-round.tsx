import { NumberInput, Radio, Select } from '@mantine/core';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { SheetMaterialName, SheetOutputOptions } from '#contract';
import { useTestSheetMaking, useTestSheetProposal } from '../../api/index.js';
import { ProblemNote } from '../../frame/index.js';
import { BlankField, FormatField, MakeBlock, SheetPreview } from '../../test-sheet/index.js';
import { orderOf, patchBounds, type StartKind } from './order.js';
import { PatchCount } from './patch-count.js';
import { SizeField } from './size-field.js';
import styles from './start.module.css';
import { useStartChoice } from './use-start-choice.js';

const leads: Record<StartKind, { readonly title: string; readonly says: string }> = {
  colour: {
    title: 'A colour test sheet',
    says: 'You print it the way you always print, press it, scan it. Out comes what your printer, ink, paper and press really make of every colour.',
  },
  grey: {
    title: 'A grey sheet, for the eye',
    says: 'No scanner needed: you pick the most neutral greys beside a grey card. It puts casts and contrast right; strong colours stay unmeasured.',
  },
  check: {
    title: 'A check sheet',
    says: 'A small second print, sent through the path. Read back, it says how near the colours really come.',
  },
  'follow-up': {
    title: 'A follow-up sheet',
    says: 'More patches where they help most. Read back, they make the same path surer.',
  },
  palette: {
    title: 'A palette sheet',
    says: 'Named swatches over all that the path reaches, to choose colours from with the piece in hand.',
  },
};

/** From choices to a made test sheet: few questions, the sheet beside them. */
export function StartRound({ kind }: { readonly kind: StartKind }) {
  const state = useStartChoice(kind);
  const { choice, change, choose } = state;
  const navigate = useNavigate();
  const order = orderOf(choice);
  const proposal = useTestSheetProposal(order);
  const [format, setFormat] = useState<SheetOutputOptions['format']>('pdf');
  const making = useTestSheetMaking((sheetId) => {
    void navigate({ to: '/measure/sheets/$sheetId', params: { sheetId } });
  });
  const bounds = kind in patchBounds ? patchBounds[kind as keyof typeof patchBounds] : null;
  const wantsPath = kind !== 'colour';
  const standing = proposal.data?.standing ?? null;
  return (
    <section aria-labelledby="start-title" className={styles.start}>
      <div className={styles.lead}>
        <h2 id="start-title" tabIndex={-1}>
          {leads[kind].title}
        </h2>
        <p>{leads[kind].says}</p>
      </div>
      {state.error && <ProblemNote error={state.error} />}
      <form
        className={styles.columns}
        aria-label={leads[kind].title}
        onSubmit={(event) => {
          event.preventDefault();
          if (order && proposal.data?.possible && !making.busy) making.make(order, { format });
        }}
      >
        <div className={styles.fields}>
          {wantsPath && (
            <Select
              size="md"
              label={kind === 'grey' ? 'Puts right' : 'Colour path'}
              placeholder={kind === 'grey' ? 'The plain driver' : 'Which path?'}
              clearable={kind === 'grey'}
              clearButtonProps={{ 'aria-label': 'The plain driver instead' }}
              data={state.paths.map((path) => ({ value: path.id, label: path.name }))}
              value={choice.path?.id ?? null}
              onChange={(id) => choose({ path: id ?? undefined })}
            />
          )}
          <Select
            size="md"
            label="Printed with"
            placeholder="Which print setup?"
            data={state.setups.map((setup) => ({ value: setup.id, label: setup.name }))}
            value={choice.setup?.id ?? null}
            onChange={(id) => id !== null && choose({ setup: id })}
            description={choice.setup ? `${choice.setup.printer}; ${choice.setup.ink}` : undefined}
          />
          <BlankField
            blanks={state.blanks}
            blank={choice.blank}
            onPick={(blank) => choose({ blank })}
            after="The path will hold for this coating and this recipe."
          />
          {kind === 'follow-up' && (
            <Radio.Group
              size="md"
              label="New patches go"
              value={choice.towards}
              onChange={(value) => change({ towards: value as typeof choice.towards })}
            >
              <div className={styles.radios}>
                <Radio size="md" value="doubt" label="Where the path is least sure" />
                <Radio size="md" value="artwork" label="Where the colours of an artwork lie" />
              </div>
            </Radio.Group>
          )}
          {kind === 'follow-up' && choice.towards === 'artwork' && (
            <Select
              size="md"
              label="Artwork"
              placeholder="Which one?"
              searchable
              data={state.artworks.map((artwork) => ({ value: artwork.id, label: artwork.fileName }))}
              value={choice.artworkId}
              onChange={(id) => id !== null && choose({ artwork: id })}
            />
          )}
          {kind === 'colour' && bounds && (
            <PatchCount
              count={choice.patches}
              least={bounds.least}
              most={Math.max(bounds.least, proposal.data?.mostPatches || bounds.most)}
              onChange={(patches) => change({ patches })}
            />
          )}
          {kind !== 'colour' && bounds && (
            <NumberInput
              size="md"
              label="How many patches"
              className={styles.own}
              value={choice.patches}
              min={bounds.least}
              max={bounds.most}
              allowDecimal={false}
              clampBehavior="blur"
              onChange={(typed) => {
                const number = typeof typed === 'number' ? typed : Number.parseInt(typed, 10);
                if (number >= bounds.least && number <= bounds.most) change({ patches: number });
              }}
            />
          )}
          <SizeField choice={choice} onChange={change} />
          <details className={styles.more}>
            <summary>File and cloth</summary>
            <div className={styles.fields}>
              <FormatField label="The file" value={format} onChange={setFormat} />
              <Radio.Group
                size="md"
                label="Patches for"
                value={choice.material ?? 'auto'}
                onChange={(value) =>
                  change({ material: value === 'auto' ? null : (value as SheetMaterialName) })
                }
              >
                <div className={styles.radios}>
                  <Radio size="md" value="auto" label="what the blank is" />
                  <Radio size="md" value="hard" label="a hard, smooth piece" />
                  <Radio size="md" value="fabric" label="cloth: larger patches" />
                </div>
              </Radio.Group>
            </div>
          </details>
        </div>
        <div className={styles.preview}>
          <SheetPreview
            order={order}
            proposal={proposal.data ?? null}
            missing={missingWords(kind, choice.path !== null, choice.setup !== null, choice.blank !== null)}
          />
        </div>
        <div className={styles.make}>
          <MakeBlock
            proposal={proposal}
            making={making}
            standing={standing}
            remarks={proposal.data?.remarks ?? []}
            error={proposal.error}
            ready={order !== null && proposal.data?.possible === true}
            words="Make the sheet"
          />
        </div>
      </form>
      <p className={styles.other}>
        {kind !== 'grey' && (
          <Link to="/measure" search={{ start: 'grey' }} resetScroll={false}>
            By eye, without a scanner
          </Link>
        )}
        {kind !== 'colour' && (
          <Link to="/measure" search={{ start: 'colour' }} resetScroll={false}>
            Measure a new path instead
          </Link>
        )}
        <Link to="/measure" search={{ start: 'file' }} resetScroll={false}>
          From an instrument’s file
        </Link>
        <Link to="/setups" search={{ open: 'new-path' }}>
          Bring in an ICC profile
        </Link>
      </p>
    </section>
  );
}

function missingWords(kind: StartKind, path: boolean, setup: boolean, blank: boolean): string {
  if (kind !== 'colour' && kind !== 'grey' && !path) return 'Say which path, and the sheet is drawn here.';
  if (!setup) return 'Say what it is printed with, and the sheet is drawn here.';
  if (!blank) return 'Say what it is pressed on, and the sheet is drawn here.';
  return 'Choose an artwork, and the sheet is drawn here.';
}
