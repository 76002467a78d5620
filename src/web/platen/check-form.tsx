import { Button, NumberInput, Radio, Textarea } from '@mantine/core';
import { useSessionStorage } from '@mantine/hooks';
import { useState } from 'react';
import type { PlatenCheck, Press } from '#contract';
import { cautionsFor } from '#craft/heat';
import { useAddPlatenCheck } from '../api/index.js';
import { Cautions, FigureField, ProblemNote, TemperatureField, usePreferences } from '../frame/index.js';
import { type CheckDraft, emptyDraft, readDraft } from './check-draft.js';
import styles from './platen-page.module.css';
import { sideNames } from './sides.js';
import { TemperatureGrid } from './temperature-grid.js';

/** How each instrument is used so that it tells the truth: common practice. */
const howTo: Record<CheckDraft['method'], string> = {
  probe:
    'A flat thermocouple between two felt or silicone pads, the press closed on it as on a blank. Wait at each place until the figure stands, about half a minute.',
  strips:
    'A strip at each place, the press closed on it for as long as its maker says. Type the hottest field that turned.',
  'infra-red':
    'Bare metal shines like a mirror, so it reads far too cool. Measure on a dull face: matt heat-proof paint or a dark cover sheet, straight from above, close by. Emissivity: what the instrument is set to.',
};

/** Temperatures typed on a drawn platen. Kept in this tab until they are taken, so that a reload loses nothing. */
export function CheckForm({ press, onKept }: { readonly press: Press; onKept(check: PlatenCheck): void }) {
  const { temperatureUnit: unit } = usePreferences();
  const [draft, setDraft, forget] = useSessionStorage<CheckDraft>({
    key: `dyewright.platen.${press.id}`,
    defaultValue: emptyDraft,
    getInitialValueInEffect: false,
  });
  const [complaints, setComplaints] = useState<Readonly<Record<string, string>>>({});
  const adding = useAddPlatenCheck(press.id);
  const change = (next: Partial<CheckDraft>) => setDraft((old) => ({ ...old, ...next }));
  const keep = () => {
    const read = readDraft(draft, unit);
    if ('complaints' in read) return setComplaints(read.complaints);
    setComplaints({});
    adding.mutate(read.input, {
      onSuccess: (check) => {
        forget();
        onKept(check);
      },
    });
  };
  const sides = ['columns', 'rows'] as const;
  // Nothing is pressed: only what is hot, and what the press itself draws.
  const cautions = cautionsFor({ material: null, kind: press.kind, watts: press.watts }).filter(
    ({ id }) => id === 'hot' || id === 'oven' || id === 'circuit',
  );
  return (
    <form
      className={styles.form}
      aria-label="Type temperatures"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <div className={styles.ask}>
        <Radio.Group
          size="md"
          label="Measured with"
          value={draft.method}
          onChange={(method) => change({ method: method as CheckDraft['method'] })}
        >
          <div className={styles.radios}>
            <Radio size="md" value="probe" label="a thermocouple probe, the surest" />
            <Radio size="md" value="strips" label="temperature strips" />
            <Radio size="md" value="infra-red" label="an infra-red thermometer" />
          </div>
        </Radio.Group>
        <p className="soft">{howTo[draft.method]}</p>
        <div className={styles.pair}>
          <TemperatureField
            label="The display was set to"
            valueC={draft.setC}
            placeholder={unit === 'C' ? 'e.g. 200' : 'e.g. 392'}
            onChange={(setC) => change({ setC })}
            error={complaints.setC}
          />
          <FigureField
            label="± of the instrument"
            description="Its maker’s figure; empty: usual for its kind"
            unit={`°${unit}`}
            decimals={1}
            value={
              draft.instrumentK === null
                ? null
                : Number((unit === 'C' ? draft.instrumentK : draft.instrumentK * 1.8).toFixed(1))
            }
            onChange={(value) =>
              change({ instrumentK: value === null ? null : unit === 'C' ? value : value / 1.8 })
            }
            error={complaints.instrumentK}
          />
          {draft.method === 'infra-red' && (
            <FigureField
              label="Emissivity it was set to"
              decimals={2}
              step={0.01}
              min={0.1}
              max={1}
              value={draft.emissivitySet}
              onChange={(emissivitySet) => change({ emissivitySet })}
              error={complaints.emissivitySet}
            />
          )}
        </div>
        <div className={styles.pair}>
          {sides.map((side) => (
            <NumberInput
              key={side}
              size="md"
              label={
                side === 'columns'
                  ? 'Places left to right'
                  : `Places ${sideNames(press.kind).ends.join(' to ')}`
              }
              min={1}
              max={9}
              allowDecimal={false}
              clampBehavior="strict"
              value={draft[side]}
              onChange={(value) =>
                typeof value === 'number' && value >= 1 && change(resized(draft, side, value))
              }
            />
          ))}
        </div>
        <Cautions cautions={cautions} />
      </div>
      <div className={styles.type}>
        <h3>The temperatures, in °{unit}</h3>
        <p className="soft">
          Start when the press has stood at its temperature for a quarter of an hour. Leave a place empty
          where none was taken.
        </p>
        <TemperatureGrid
          columns={draft.columns}
          rows={draft.rows}
          sides={sideNames(press.kind)}
          texts={draft.texts}
          onChange={(texts) => change({ texts })}
          unit={unit}
          shape={press.platenDepthMm / press.platenWidthMm}
          complaint={(at) => complaints[`celsius.${at}`]}
        />
        {complaintOfGrid(complaints) && <p role="alert">{complaintOfGrid(complaints)}</p>}
        <Textarea
          size="md"
          label="Note"
          autosize
          minRows={1}
          value={draft.note}
          error={complaints.note}
          onChange={(event) => change({ note: event.currentTarget.value })}
        />
        {adding.error && <ProblemNote error={adding.error} />}
        <div>
          <Button type="submit" size="lg" loading={adding.isPending}>
            Draw the true temperatures
          </Button>
        </div>
      </div>
    </form>
  );
}

const complaintOfGrid = (complaints: Readonly<Record<string, string>>): string | undefined =>
  complaints.celsius ?? ofPlaces(complaints) ?? complaints.setC;

/** Another grid; figures stay at their column and row as long as these are there. */
function resized(draft: CheckDraft, side: 'columns' | 'rows', count: number): Partial<CheckDraft> {
  const next = { columns: draft.columns, rows: draft.rows, [side]: count };
  const texts = Array.from({ length: next.columns * next.rows }, (_, i) => {
    const column = i % next.columns;
    const row = Math.floor(i / next.columns);
    return column < draft.columns && row < draft.rows
      ? (draft.texts[row * draft.columns + column] ?? '')
      : '';
  });
  return { ...next, texts };
}

/** The marked places counted, with what is allowed in each. */
function ofPlaces(complaints: Readonly<Record<string, string>>): string | undefined {
  const wrong = Object.entries(complaints).filter(([key]) => key.startsWith('celsius.'));
  if (wrong.length === 0) return undefined;
  const said = [...new Set(wrong.map(([, words]) => words))].join(' ');
  return `${wrong.length === 1 ? 'One place is marked' : `${wrong.length} places are marked`}. ${said}`;
}
