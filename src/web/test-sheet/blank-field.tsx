import { Select } from '@mantine/core';
import type { Blank } from '#contract';
import { BlankDrawing, usePreferences } from '../frame/index.js';
import { materialNames, pressureNames, temperatureText, timeText } from '../words/index.js';
import { coatingWords } from './coating-words.js';
import styles from './test-sheet.module.css';

/** What the sheet is pressed on, with its recipe; `after` says what of it matters here. */
export function BlankField(props: {
  readonly blanks: readonly Blank[];
  readonly blank: Blank | null;
  readonly after: string;
  onPick(id: string): void;
}) {
  const { blanks, blank, after, onPick } = props;
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
    <div className={styles.blank}>
      <Select
        size="md"
        label="Pressed on"
        placeholder="Find a blank: tile, slate, shirt…"
        searchable
        nothingFoundMessage="No blank is called that. Add one in Setups."
        data={groups}
        value={blank?.id ?? null}
        onChange={(id) => id !== null && onPick(id)}
        maxDropdownHeight={340}
      />
      {blank && (
        <div className={styles.blankFacts}>
          <span className={styles.drawing}>
            <BlankDrawing blank={blank} width={76} />
          </span>
          <p>
            {coatingWords(blank)}, pressed at {temperatureText(blank.recipe.platenC, temperatureUnit)} for{' '}
            {timeText(blank.recipe.dwellSeconds)} with {pressureNames[blank.recipe.pressure].toLowerCase()}{' '}
            pressure. {after}
          </p>
        </div>
      )}
      {blank?.coating.kind === 'none' && (
        <p className={styles.hint}>
          Nothing holds the dye on this blank: there will be nothing to measure. Choose one with a polyester
          coat, or polyester cloth.
        </p>
      )}
    </div>
  );
}
