import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import type { Blank, Press } from '#contract';
import { cautionsFor } from '#craft/heat';
import { useRecipeOnPress } from '../api/index.js';
import { Cautions, Told, usePreferences } from '../frame/index.js';
import { pressureNames, temperatureText, timeText } from '../words/index.js';
import styles from './evenness.module.css';

/** Press it so that what is uneven shows: over the whole platen, not to the very end. */
export function EvennessPressStep(props: {
  /** As it was when the sheet was made. */
  readonly blank: Blank | null;
  readonly press: Press | null;
  onPressed(): void;
}) {
  const { blank, press, onPressed } = props;
  const { temperatureUnit } = usePreferences();
  const onPress = useRecipeOnPress(blank?.id ?? null, press?.id ?? null);
  const cautions = cautionsFor({
    material: blank?.material ?? null,
    kind: press?.kind ?? 'flat',
    watts: press?.watts,
  });
  // A quarter less, as the ticket has it: where dye is still rising, a cooler place shows; at the top it would be hidden. Common practice.
  const seconds = blank ? Math.max(5, Math.round(blank.recipe.dwellSeconds * 0.75)) : null;
  return (
    <>
      {blank && seconds !== null && (
        <>
          <p className={styles.recipe}>
            {onPress.data
              ? `Set ${temperatureText(onPress.data.setC, temperatureUnit)}`
              : temperatureText(blank.recipe.platenC, temperatureUnit)}
            , {timeText(seconds)}, {pressureNames[blank.recipe.pressure].toLowerCase()} pressure
          </p>
          <p className="soft">
            A quarter less time than the recipe of {blank.name}: while the dye still rises, a cooler place
            shows; pressed to the end, it would hide. <Told text={onPress.data?.words ?? ''} />
          </p>
        </>
      )}
      <ol className={styles.list}>
        <li>Let the press stand at its temperature for a quarter of an hour.</li>
        <li>
          The piece in the middle of the platen, its face up; on it the sheet, printed side down,{' '}
          <strong>the edge with the words to the back of the press</strong>.
        </li>
        <li>
          Press it once only: a second pressing hides what the first one showed. Every time in the same way,
          so that maps can be held against one another.
        </li>
      </ol>
      <Cautions cautions={cautions} />
      <div className="row">
        <Button variant="default" onClick={onPressed}>
          It is pressed, and cool
        </Button>
        {press && (
          <Link to="/press/platen/$pressId" params={{ pressId: press.id }}>
            Measure the temperatures too
          </Link>
        )}
      </div>
    </>
  );
}
