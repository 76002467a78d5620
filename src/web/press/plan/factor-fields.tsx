import { Checkbox } from '@mantine/core';
import type { FactorKindName, LadderPlanFacts } from '#contract';
import styles from './plan.module.css';
import { type LadderChoice, plannedRange } from './plan-order.js';
import { RangeField } from './range-field.js';

const offers: readonly { readonly kind: FactorKindName; readonly name: string; readonly says: string }[] = [
  { kind: 'time', name: 'Time', says: 'the first to try: easy to set, and it tells most' },
  { kind: 'temperature', name: 'Temperature', says: 'the platen must settle after each change' },
  { kind: 'pressure', name: 'Pressure', says: 'where faces come out patchy or pale' },
];
const most = 2;

/** What varies from coupon to coupon, one or two, and how far. */
export function FactorFields(props: {
  readonly choice: LadderChoice;
  readonly plan: LadderPlanFacts | null;
  onChange(change: Partial<Pick<LadderChoice, 'factors' | 'ranges'>>): void;
}) {
  const { choice, plan, onChange } = props;
  const { factors, ranges } = choice;
  return (
    <fieldset className={styles.factors}>
      <legend>What varies, one or two</legend>
      {offers.map(({ kind, name, says }) => {
        const isOn = factors.includes(kind);
        return (
          <div key={kind}>
            <Checkbox
              size="md"
              label={name}
              description={says}
              checked={isOn}
              disabled={!isOn && factors.length >= most}
              onChange={(event) =>
                onChange({
                  factors: event.currentTarget.checked
                    ? offers.map((offer) => offer.kind).filter((one) => one === kind || factors.includes(one))
                    : factors.filter((one) => one !== kind),
                })
              }
            />
            {isOn && (
              <RangeField
                kind={kind}
                label={`${name}, from and to`}
                range={ranges[kind] ?? [null, null]}
                proposed={plan?.factors.includes(kind) ? plannedRange(plan, kind) : null}
                onChange={(range) => onChange({ ranges: { ...ranges, [kind]: range } })}
              />
            )}
          </div>
        );
      })}
    </fieldset>
  );
}
