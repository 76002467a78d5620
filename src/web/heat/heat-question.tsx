import { Select } from '@mantine/core';
import type { Blank, Press } from '#contract';
import { FigureField, TemperatureField, usePreferences } from '../frame/index.js';
import { materialNames, pressureNames, temperatureText } from '../words/index.js';
import styles from './heat.module.css';
import type { HeatSearch } from './search.js';

/** What is pressed, on what, how; left empty: as the blank's recipe has it. */
export function HeatQuestionFields(props: {
  readonly blanks: readonly Blank[];
  readonly presses: readonly Press[];
  readonly blank: Blank | null;
  readonly search: HeatSearch;
  onChange(change: Partial<HeatSearch>): void;
}) {
  const { blanks, presses, blank, search, onChange } = props;
  const { temperatureUnit } = usePreferences();
  const groups = (Object.keys(materialNames) as Blank['material'][])
    .map((material) => ({
      group: materialNames[material],
      items: blanks
        .filter((one) => one.material === material)
        .map((one) => ({ value: one.id, label: one.name })),
    }))
    .filter((group) => group.items.length > 0);
  return (
    <form
      className={styles.question}
      aria-label="What is pressed"
      onSubmit={(event) => event.preventDefault()}
    >
      <div className={styles.main}>
        <Select
          size="md"
          label="Blank"
          placeholder="Find a blank: tile, slate, shirt…"
          searchable
          nothingFoundMessage="No blank is called that. Add one in Setups."
          data={groups}
          value={blank?.id ?? null}
          onChange={(id) =>
            id !== null &&
            onChange({
              blank: id,
              platenC: undefined,
              seconds: undefined,
              pressure: undefined,
              faceDown: undefined,
              thicknessMm: undefined,
            })
          }
          maxDropdownHeight={340}
        />
        <Select
          size="md"
          label="Press"
          placeholder="A usual one"
          clearable
          clearButtonProps={{ 'aria-label': 'A usual press' }}
          data={presses.map((one) => ({ value: one.id, label: one.name }))}
          value={search.press ?? null}
          onChange={(id) => onChange({ press: id ?? undefined })}
        />
        <TemperatureField
          label="Platen, true"
          valueC={search.platenC ?? null}
          minC={60}
          maxC={230}
          placeholder={blank ? temperatureText(blank.recipe.platenC, temperatureUnit) : ''}
          onChange={(platenC) => onChange({ platenC: platenC ?? undefined })}
        />
        <FigureField
          label="Time"
          unit="s"
          unitName="seconds"
          min={1}
          max={3600}
          value={search.seconds ?? null}
          placeholder={blank ? `${blank.recipe.dwellSeconds}\u00a0s` : ''}
          onChange={(seconds) => onChange({ seconds: seconds ?? undefined })}
        />
      </div>
      {blank && <p className={styles.aside}>Left empty: as the recipe of {blank.name} has it.</p>}
      <details className={styles.more} open={hasMore(search) || undefined}>
        <summary>Pressure, how it lies, thickness, a pre-press</summary>
        <div className={styles.fields}>
          <Select
            size="md"
            label="Pressure"
            placeholder={blank ? `${pressureNames[blank.recipe.pressure]}, its recipe` : ''}
            clearable
            clearButtonProps={{ 'aria-label': 'Pressure of the recipe' }}
            data={Object.entries(pressureNames).map(([value, label]) => ({ value, label }))}
            value={search.pressure ?? null}
            onChange={(value) => onChange({ pressure: (value ?? undefined) as HeatSearch['pressure'] })}
          />
          <Select
            size="md"
            label="The piece lies"
            placeholder="as its recipe says"
            clearable
            clearButtonProps={{ 'aria-label': 'As its recipe says' }}
            data={[
              { value: 'up', label: 'face up, the paper over it' },
              { value: 'down', label: 'face down on the paper' },
            ]}
            value={search.faceDown === undefined ? null : search.faceDown ? 'down' : 'up'}
            onChange={(value) => onChange({ faceDown: value === null ? undefined : value === 'down' })}
          />
          <FigureField
            label="Thickness of the blank"
            unit="mm"
            decimals={2}
            min={0.05}
            max={60}
            placeholder="usual for its kind"
            value={search.thicknessMm ?? null}
            onChange={(thicknessMm) => onChange({ thicknessMm: thicknessMm ?? undefined })}
          />
          <TemperatureField
            label="The blank starts at"
            valueC={search.startC ?? null}
            minC={-10}
            maxC={120}
            placeholder={temperatureText(21, temperatureUnit)}
            onChange={(startC) => onChange({ startC: startC ?? undefined })}
          />
          <FigureField
            label="Pre-press"
            unit="s"
            unitName="seconds"
            min={0}
            max={120}
            placeholder="none"
            value={search.prePress ?? null}
            onChange={(prePress) => onChange({ prePress: prePress ?? undefined })}
          />
        </div>
      </details>
    </form>
  );
}

const hasMore = (search: HeatSearch): boolean =>
  search.pressure !== undefined ||
  search.faceDown !== undefined ||
  search.thicknessMm !== undefined ||
  search.startC !== undefined ||
  search.prePress !== undefined;
