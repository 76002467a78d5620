import { Button } from '@mantine/core';
import type { Blank } from '#contract';
import { usePreferences } from '../../frame/index.js';
import { coatingWords } from '../../test-sheet/index.js';
import { pressureNames, temperatureText, timeText } from '../../words/index.js';
import styles from './round.module.css';

/** Press it by the very recipe that the path is to hold for. */
export function PressStep(props: {
  readonly blankName: string;
  readonly blank: Blank | null;
  onPressed(): void;
}) {
  const { blankName, blank, onPressed } = props;
  const { temperatureUnit } = usePreferences();
  return (
    <>
      {blank && (
        <>
          <p className={styles.recipe}>
            {temperatureText(blank.recipe.platenC, temperatureUnit)}, {timeText(blank.recipe.dwellSeconds)},{' '}
            {pressureNames[blank.recipe.pressure].toLowerCase()} pressure
          </p>
          <p className="soft">{blank.recipe.basis} The path holds for this recipe; keep to it.</p>
          <p>
            {blank.shape.kind === 'cylinder'
              ? `A sheet does not lie flat on this: press it on a flat piece with the same coating (${coatingWords(blank)}).`
              : `Press it on ${blankName}: ${blank.coating.side}. A larger flat piece with the same coating will do too.`}
          </p>
          {blank.recipe.steps.length > 0 && (
            <ol className={styles.list}>
              {blank.recipe.steps.map((step) => (
                <li key={step}>{step}</li>
              ))}
            </ol>
          )}
        </>
      )}
      <p className={styles.caution}>
        <strong>Mind the heat.</strong> The platen and the piece burn skin: heat-proof gloves, and fresh air
        against fumes. Spirits and solvents never near the hot press. Let glass, ceramics and slate cool by
        themselves; cold water can crack them. What the makers say comes before all of this.
      </p>
      <p className="soft">Let it cool before it is read: colours move a little while it is warm.</p>
      <div>
        <Button variant="default" onClick={onPressed}>
          It is pressed, and cool
        </Button>
      </div>
    </>
  );
}
