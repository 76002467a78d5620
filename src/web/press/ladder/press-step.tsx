import { Button } from '@mantine/core';
import type { Blank, Ladder } from '#contract';
import { cautionsFor } from '#craft/heat';
import { usePresses } from '../../api/index.js';
import { Cautions, Told, usePreferences } from '../../frame/index.js';
import { coatingWords } from '../../test-sheet/index.js';
import { temperatureText } from '../../words/index.js';
import styles from './ladder.module.css';
import { PressingList } from './pressing-list.js';

/** Press the coupons one after the other, in the order that tells most. */
export function PressStep(props: {
  readonly ladder: Ladder;
  /** As it was when the sheet was made. */
  readonly blank: Blank | null;
  readonly pressed: ReadonlySet<number>;
  onTick(number: number, isPressed: boolean): void;
  onAllPressed(): void;
}) {
  const { ladder, blank, pressed, onTick, onAllPressed } = props;
  const { temperatureUnit } = usePreferences();
  const { plan } = ladder;
  const press = usePresses().data?.find((one) => one.id === plan.pressId);
  const cautions = cautionsFor({
    material: blank?.material ?? null,
    kind: press?.kind ?? 'flat',
    watts: press?.watts,
  });
  return (
    <>
      <Cautions cautions={cautions} />
      <p>
        Cut the coupons apart and press each on {blank ? withCoating(blank) : 'the same coating'}
        {plan.pressName ? `, on ${plan.pressName}` : ''}. Everything but the figures below stays the same:
        paper, cover sheet, pad, and the time between two pressings. <Told text={plan.words} />
      </p>
      {plan.offsetK !== null && Math.abs(plan.offsetK) >= 0.5 && (
        <p>
          The temperatures are what to <strong>set</strong>: this press was measured, and is{' '}
          {temperatureText(plan.start.platenC, temperatureUnit)} at the platen when it is set to{' '}
          {temperatureText(plan.start.platenC - plan.offsetK, temperatureUnit)}.
        </p>
      )}
      <PressingList ladder={ladder} pressed={pressed} onTick={onTick} />
      <p className={styles.aside}>
        Something went otherwise? Press on; what was really set can be put right in the table of coupons.
        Write nothing on the face: each coupon carries its number in its marks.
      </p>
      <div>
        <Button variant="default" size="md" onClick={onAllPressed}>
          All are pressed, and cool
        </Button>
      </div>
    </>
  );
}

const withCoating = (blank: Blank): string =>
  blank.shape.kind === 'cylinder'
    ? `a flat piece with the same coating (${coatingWords(blank)}), of the same thickness if there is one`
    : `${blank.name} or a scrap of the same`;
