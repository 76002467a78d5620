import { Button, Radio, SegmentedControl } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import type { Blank, PrintSetup, SheetOutputOptions, SheetProposal, SheetRequestInput } from '#contract';
import { useSheet, useSheetMaking } from '../api/index.js';
import { ProblemNote, Working } from '../frame/index.js';
import { MadeSheet } from './made-sheet.js';
import styles from './make-section.module.css';

const formats = [
  { value: 'pdf', name: 'PDF', says: 'One page of exactly this size. The surest way to print at 100 %.' },
  {
    value: 'png',
    name: 'PNG',
    says: 'A picture that carries its resolution, for print software that takes pictures only.',
  },
  {
    value: 'tiff',
    name: 'TIFF',
    says: 'A picture with 8 or 16 bits a colour, where print software asks for one.',
  },
] as const;

const tags = [
  {
    value: 'device',
    name: 'Finished numbers, nothing attached',
    says: 'What you want unless print software asks otherwise: nothing on the way changes the colours again.',
  },
  {
    value: 'tagged',
    name: 'The same numbers with their profile attached',
    says: 'Only for print software that wants to know which profile they are for.',
  },
] as const;

/** Choose the form, make it, follow it, fetch it. */
export function MakeSection(props: {
  readonly request: SheetRequestInput;
  readonly proposal: SheetProposal;
  readonly blank: Blank;
  readonly setup: PrintSetup;
}) {
  const { request, proposal, setup } = props;
  const [output, setOutput] = useState<SheetOutputOptions>({
    format: 'pdf',
    bitsPerSample: 8,
    colourTag: 'device',
  });
  const [madeId, setMadeId] = useState<string | null>(null);
  const queries = useQueryClient();
  const result = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const making = useSheetMaking((id) => {
    setMadeId(id);
    void queries.invalidateQueries({ queryKey: ['sheets'] });
  });
  const made = useSheet(madeId);
  useEffect(() => {
    if (made.data) result.current?.focus();
  }, [made.data]);

  // Something was changed since: what was made is in the list of sheets, no longer here.
  const asked = JSON.stringify(request);
  // biome-ignore lint/correctness/useExhaustiveDependencies: only another request clears it
  useEffect(() => {
    setMadeId(null);
    making.clear();
  }, [asked]);

  // The stop button has gone with the work; the keyboard goes back to where it began.
  const stopped = making.job?.state === 'cancelled';
  useEffect(() => {
    if (stopped) button.current?.focus();
  }, [stopped]);

  const stops = proposal.checks.filter((check) => check.level === 'stop');
  const busy = making.asking || making.job?.state === 'waiting' || making.job?.state === 'working';
  return (
    <section aria-labelledby="make-title" className={styles.section}>
      <h2 id="make-title">Make the sheet</h2>
      <div className={styles.choices}>
        <Radio.Group
          size="md"
          label="As"
          value={output.format}
          onChange={(format) =>
            setOutput({
              ...output,
              format: format as SheetOutputOptions['format'],
              ...(format === 'pdf' ? { bitsPerSample: 8 as const } : {}),
            })
          }
        >
          <div className={styles.options}>
            {formats.map((format) => (
              <Radio
                key={format.value}
                size="md"
                value={format.value}
                label={format.name}
                description={format.says}
              />
            ))}
          </div>
          {output.format !== 'pdf' && (
            <SegmentedControl
              size="sm"
              aria-label="Bits a colour"
              value={String(output.bitsPerSample)}
              onChange={(bits) => setOutput({ ...output, bitsPerSample: bits === '16' ? 16 : 8 })}
              data={[
                { value: '8', label: '8 bits' },
                { value: '16', label: '16 bits' },
              ]}
            />
          )}
        </Radio.Group>
        <Radio.Group
          size="md"
          label="Colour in the file"
          value={output.colourTag}
          onChange={(tag) => setOutput({ ...output, colourTag: tag as SheetOutputOptions['colourTag'] })}
        >
          <div className={styles.options}>
            {tags.map((tag) => (
              <Radio key={tag.value} size="md" value={tag.value} label={tag.name} description={tag.says} />
            ))}
          </div>
        </Radio.Group>
      </div>
      {stops.length > 0 && (
        <p id="stops" className={styles.stops}>
          First put right: {stops.map((check) => check.title).join('; ')}.
        </p>
      )}
      {busy ? (
        <Working
          step={making.job?.step || 'Beginning'}
          share={making.job ? making.job.progress : null}
          {...(making.job ? { onCancel: making.cancel } : {})}
        />
      ) : (
        <div>
          <Button
            size="lg"
            ref={button}
            disabled={stops.length > 0}
            aria-describedby={stops.length > 0 ? 'stops' : undefined}
            onClick={() => {
              setMadeId(null);
              making.make(request, output);
            }}
          >
            Make the sheet
          </Button>
        </div>
      )}
      {stopped && <p role="status">Stopped. Nothing was kept.</p>}
      {making.problem && <ProblemNote error={making.problem} />}
      {made.error && <ProblemNote error={made.error} onAgain={() => void made.refetch()} />}
      {made.data && (
        <div ref={result} tabIndex={-1} className={styles.result}>
          <MadeSheet sheet={made.data} blank={props.blank} setup={setup} />
        </div>
      )}
    </section>
  );
}
