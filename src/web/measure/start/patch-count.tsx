import { NumberInput, Radio } from '@mantine/core';
import { useState } from 'react';
import styles from './start.module.css';

/**
 * What the number of patches alone leaves, mean CIEDE2000 on colours not printed: least and most over the five
 * simulated printers of bench/inkmodel.bench.mjs, read with a noise of 0.4 (its rows for 50, 150 and 300 patches).
 */
const offers = [
  { count: 60, name: 'Quick', leaves: '0.4 to 1.3', says: 'for a first look, or a small piece' },
  { count: 150, name: 'Usual', leaves: '0.2 to 0.7', says: 'for daily work' },
  { count: 300, name: 'Thorough', leaves: '0.2 to 0.6', says: 'for a printer with moods of its own' },
] as const;

/** How many patches, as a human choice, with what each buys. */
export function PatchCount(props: {
  readonly count: number;
  readonly least: number;
  readonly most: number;
  onChange(count: number): void;
}) {
  const { count, least, most, onChange } = props;
  const offered = offers.some((offer) => offer.count === count);
  const [own, setOwn] = useState(!offered);
  const value = own ? 'own' : String(count);
  return (
    <Radio.Group
      size="md"
      label="How many patches"
      value={value}
      onChange={(next) => {
        setOwn(next === 'own');
        if (next !== 'own') onChange(Number(next));
      }}
    >
      <div className={styles.counts}>
        {offers.map((offer) => (
          <Radio
            key={offer.count}
            size="md"
            value={String(offer.count)}
            label={`${offer.name}: ${offer.count}`}
            description={
              <>
                {offer.says}; leaves {offer.leaves} ΔE00
              </>
            }
          />
        ))}
        <Radio size="md" value="own" label="Another number" description={`${least} to ${most}`} />
      </div>
      {own && (
        <NumberInput
          size="md"
          className={styles.own}
          aria-label="Number of patches"
          value={count}
          min={least}
          max={most}
          allowDecimal={false}
          clampBehavior="blur"
          onChange={(typed) => {
            const number = typeof typed === 'number' ? typed : Number.parseInt(typed, 10);
            if (Number.isInteger(number) && number >= least && number <= most) onChange(number);
          }}
        />
      )}
      <p className={styles.aside}>
        ΔE00 counts colour difference: half of all people see 0.8 side by side. The figures are what the
        number of patches alone leaves, found on simulated printers; reading the sheet adds its own, by its
        grade.
      </p>
    </Radio.Group>
  );
}
