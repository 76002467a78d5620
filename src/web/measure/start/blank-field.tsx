import { Select } from '@mantine/core';
import type { Blank } from '#contract';
import { BlankDrawing, usePreferences } from '../../frame/index.js';
import { materialNames, pressureNames, temperatureText, timeText } from '../../words/index.js';
import { coatingWords } from '../words.js';
import styles from './start.module.css';

/** What the sheet is pressed on. Only its coating and its recipe matter for colour; the words say so. */
export function BlankField(props: {
  readonly blanks: readonly Blank[];
  readonly blank: Blank | null;
  onPick(id: string): void;
}) {
  const { blanks, blank, onPick } = props;
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
            pressure. The path will hold for this coating and this recipe.
          </p>
        </div>
      )}
      {blank?.coating.kind === 'none' && (
        <p className={styles.hint}>
          Nothing holds the dye on this blank: there will be no colours to measure. Choose one with a
          polyester coat, or polyester cloth.
        </p>
      )}
    </div>
  );
}
