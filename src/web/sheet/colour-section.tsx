import { Select, Switch } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { SheetProposal, SheetRequestInput } from '#contract';
import { usePreview, useSetups } from '../api/index.js';
import { ProblemNote } from '../frame/index.js';
import { percentText } from '../words/index.js';
import styles from './colour-section.module.css';
import type { SheetSearch } from './search.js';

const intents = {
  perceptual: { label: 'Perceptual', says: 'Keeps differences between colours; moves everything a little.' },
  relative: { label: 'Relative', says: 'Keeps what can be reached; moves only the rest.' },
  saturation: { label: 'Saturation', says: 'Keeps flat colours strong.' },
} as const;

/** What is known about colour on this route, and which colours it cannot give. */
export function ColourSection(props: {
  readonly request: SheetRequestInput;
  readonly proposal: SheetProposal;
  onChange(change: Partial<SheetSearch>): void;
}) {
  const { request, onChange } = props;
  const { colour } = props.proposal;
  const [mapped, setMapped] = useState(false);
  const share = colour.unreachableShare;
  const setups = useSetups();
  const pathId = setups.data?.find((setup) => setup.id === request.setupId)?.colourPathId ?? null;
  return (
    <section aria-labelledby="colour-title" className={styles.section}>
      <h2 id="colour-title">Colour</h2>
      <p>
        {colour.sentence}
        {pathId !== null && (
          <>
            {' '}
            <Link to="/paths/$pathId" params={{ pathId }}>
              About this colour path
            </Link>{' '}
            ·{' '}
            <Link to="/paths/$pathId/lookup" params={{ pathId }}>
              look up a colour
            </Link>
          </>
        )}
      </p>
      {!colour.calibrated && (
        <p>
          To know it, give this setup a colour path: <Link to="/measure">measure one</Link>, or{' '}
          <Link to="/setups" search={{ open: 'new-path' }}>
            bring in an ICC profile
          </Link>{' '}
          of the whole route.
        </p>
      )}
      {colour.calibrated && (
        <>
          {share !== null && share > 0 ? (
            <>
              <h3>Colours this path can’t reach</h3>
              <p>
                {percentText(share)} of the picture
                {colour.thresholdDeltaE00 !== null &&
                  ` would come out more than ${colour.thresholdDeltaE00} ΔE00 from what it asks`}
                . The nearest it can give:
              </p>
              <ul className={styles.swatches}>
                {colour.unreachable.slice(0, 6).map((one) => (
                  <li key={one.wantedHex + one.nearestHex}>
                    <span className={styles.swatch} aria-hidden="true">
                      <i style={{ background: one.wantedHex }} />
                      <i style={{ background: one.nearestHex }} />
                    </span>
                    <span className={styles.figure}>
                      <span className="soft">asked {one.wantedHex}</span>
                      <span>nearest {one.nearestHex}</span>
                      <span className="soft figures">
                        ΔE00 {one.deltaE00.toFixed(1)} · {percentText(one.share)}
                      </span>
                    </span>
                  </li>
                ))}
              </ul>
              <button
                type="button"
                className="link-button"
                aria-expanded={mapped}
                onClick={() => setMapped(!mapped)}
              >
                {mapped ? 'Hide where they are' : 'Show where they are'}
              </button>
              {mapped && <ReachMap request={request} />}
            </>
          ) : (
            share !== null && <p>The path reaches every colour in the picture.</p>
          )}
          <Select
            size="md"
            label="Rendering intent"
            description={intents[colour.intent].says}
            data={Object.entries(intents).map(([value, { label }]) => ({ value, label }))}
            value={colour.intent}
            allowDeselect={false}
            onChange={(value) => value && onChange({ intent: value as NonNullable<SheetSearch['intent']> })}
          />
          <Switch
            size="md"
            label="Black point compensation"
            description="Fits the artwork’s darkest tone to the darkest the path can give."
            checked={colour.blackPointCompensation}
            onChange={(event) => onChange({ blackPointCompensation: event.currentTarget.checked })}
          />
        </>
      )}
    </section>
  );
}

function ReachMap({ request }: { readonly request: SheetRequestInput }) {
  const preview = usePreview(request, 'reach', 900);
  if (preview.error) return <ProblemNote error={preview.error} onAgain={() => void preview.refetch()} />;
  return (
    <figure className={styles.map}>
      {preview.url ? (
        <img src={preview.url} alt="The artwork with the colours that cannot be reached marked" />
      ) : (
        <p>Drawing…</p>
      )}
    </figure>
  );
}
