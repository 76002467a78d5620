import { useDocumentTitle } from '@mantine/hooks';
import { useEffect, useRef, useState } from 'react';
import type { Artwork } from '#contract';
import { useAddArtwork, useProposal } from '../api/index.js';
import { PageDrop, ProblemNote, Said } from '../frame/index.js';
import { ArtworkChooser } from './artwork-chooser.js';
import { BlankChooser } from './blank-chooser.js';
import { CheckList } from './check-list.js';
import { ColourSection } from './colour-section.js';
import { MadeLately } from './made-lately.js';
import { MakeSection } from './make-section.js';
import { PlacingSection } from './placing-section.js';
import { Previews } from './previews.js';
import { useSheetChoice } from './request-state.js';
import { SetupChooser } from './setup-chooser.js';
import styles from './sheet-page.module.css';
import { ArtworkSlot, BlankSlot, SetupSlot, type SlotName, slotId } from './slots.js';

/** The main job on one page: artwork, blank and setup in; sheet and ticket out. */
export function SheetPage() {
  useDocumentTitle('Sheet · Dyewright');
  const choice = useSheetChoice();
  const { artwork, blank, setup, request, choose } = choice;
  const proposal = useProposal(request);
  const [opened, setOpened] = useState<SlotName | 'none' | null>(null);
  const adding = useAddArtwork();
  const stop = useRef<AbortController | null>(null);
  const loaded = choice.artworks.data && choice.blanks.data && choice.setups.data;

  const missing: SlotName | null = !artwork ? 'artwork' : !blank ? 'blank' : !setup ? 'setup' : null;
  const open = opened === null ? missing : opened === 'none' ? null : opened;
  const toggle = (slot: SlotName) => setOpened(open === slot ? 'none' : slot);

  // The list closes after a choice: the keyboard goes on at the slot that is asked for next, or at the one chosen.
  const goOn = (chosen: SlotName) => {
    const asked = (['artwork', 'blank', 'setup'] as const).find(
      (slot) => slot !== chosen && !{ artwork, blank, setup }[slot],
    );
    setOpened(null);
    document.getElementById(slotId(asked ?? chosen))?.focus({ preventScroll: true });
  };

  const pickArtwork = (picked: Artwork) => {
    choose({ artwork: picked.id, placement: undefined });
    goOn('artwork');
  };
  const addFile = (file: File | undefined) => {
    if (!file) return;
    stop.current = new AbortController();
    setOpened('artwork');
    adding.mutate({ file, signal: stop.current.signal }, { onSuccess: pickArtwork });
  };
  useEffect(() => () => stop.current?.abort(), []);

  const standing = !loaded
    ? 'Opening the shop…'
    : missing === 'artwork'
      ? 'Drop your artwork to begin.'
      : missing === 'blank'
        ? 'What will it be pressed on?'
        : missing === 'setup'
          ? 'Which printer and paper?'
          : (proposal.data?.standing ??
            (proposal.error ? 'This sheet cannot be made as it is.' : 'Looking it over…'));
  const listError = choice.artworks.error ?? choice.blanks.error ?? choice.setups.error;

  return (
    <div className={styles.page}>
      <PageDrop words="Let go to use this artwork." onFile={addFile} />

      <div className={styles.standing}>
        <h1>{standing}</h1>
        {!missing && proposal.data && (
          <ColourLine calibrated={proposal.data.colour.calibrated} sentence={proposal.data.colour.sentence} />
        )}
        {missing === 'artwork' && loaded && (
          <p className="soft">
            It comes back as a sheet of exact size, mirrored once, with a ticket for the press.
          </p>
        )}
        {!missing && proposal.data && (
          <p>
            <button
              type="button"
              className="link-button"
              onClick={() => document.getElementById('make-title')?.scrollIntoView({ block: 'start' })}
            >
              On to making the sheet
            </button>
          </p>
        )}
        <Said text={proposal.isFetching ? '' : standing} />
      </div>
      {listError && <ProblemNote error={listError} />}

      <section aria-label="What is being made" className={styles.slots}>
        <ArtworkSlot artwork={artwork} open={open === 'artwork'} onToggle={() => toggle('artwork')} />
        <BlankSlot blank={blank} open={open === 'blank'} onToggle={() => toggle('blank')} />
        <SetupSlot setup={setup} open={open === 'setup'} onToggle={() => toggle('setup')} />
        {open && loaded && (
          <div className={styles.chooser} id="chooser">
            {open === 'artwork' && (
              <ArtworkChooser
                artworks={choice.artworks.data ?? []}
                chosenId={artwork?.id ?? null}
                adding={adding.isPending}
                error={adding.error}
                onStop={() => {
                  stop.current?.abort();
                  adding.reset();
                }}
                onFile={addFile}
                onPick={pickArtwork}
              />
            )}
            {open === 'blank' && (
              <BlankChooser
                blanks={choice.blanks.data ?? []}
                chosenId={blank?.id ?? null}
                onPick={(picked) => {
                  choose({ blank: picked.id, placement: undefined, bleedMm: undefined });
                  goOn('blank');
                }}
              />
            )}
            {open === 'setup' && (
              <SetupChooser
                setups={choice.setups.data ?? []}
                chosenId={setup?.id ?? null}
                onPick={(picked) => {
                  choose({ setup: picked.id, intent: undefined, blackPointCompensation: undefined });
                  goOn('setup');
                }}
              />
            )}
          </div>
        )}
      </section>

      {request && artwork && blank && setup && (
        <>
          {proposal.error && <ProblemNote error={proposal.error} onAgain={() => void proposal.refetch()} />}
          <PlacingSection
            artwork={artwork}
            blank={blank}
            search={choice.search}
            onChange={(change) => choose(change, 'replace')}
          />
          <Previews request={request} blank={blank} setup={setup} proposal={proposal.data ?? null} />
          {proposal.data && (
            <div className={styles.twoColumns} aria-busy={proposal.isFetching}>
              <CheckList checks={proposal.data.checks} />
              <ColourSection
                request={request}
                proposal={proposal.data}
                onChange={(change) => choose(change, 'replace')}
              />
            </div>
          )}
          {proposal.data && !proposal.error && (
            <MakeSection request={request} blank={blank} proposal={proposal.data} setup={setup} />
          )}
        </>
      )}
      <MadeLately />
    </div>
  );
}

function ColourLine({ calibrated, sentence }: { readonly calibrated: boolean; readonly sentence: string }) {
  return (
    <p className={styles.colourLine}>
      <strong>{calibrated ? 'Colour path known.' : 'Colour is not calibrated.'}</strong>{' '}
      {withoutOpening(sentence)}
    </p>
  );
}

/** The server's sentence may open with the same words; they are not said twice. */
const withoutOpening = (sentence: string) => sentence.replace(/^Colour is not calibrated[.:]?\s*/i, '');
