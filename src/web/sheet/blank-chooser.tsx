import { TextInput } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { type CSSProperties, useState } from 'react';

import type { Blank } from '#contract';
import { BlankDrawing, usePreferences } from '../frame/index.js';
import { blankSizeText, materialNames } from '../words/index.js';
import styles from './choosers.module.css';

/** Blanks drawn as what they are, by material. */
export function BlankChooser(props: {
  readonly blanks: readonly Blank[];
  readonly chosenId: string | null;
  onPick(blank: Blank): void;
}) {
  const [sought, setSought] = useState('');
  const { lengthUnit } = usePreferences();
  const words = sought.toLowerCase().split(/\s+/).filter(Boolean);
  const found = props.blanks.filter((blank) => {
    const text =
      `${blank.name} ${materialNames[blank.material]} ${blankSizeText(blank.shape, lengthUnit)}`.toLowerCase();
    return words.every((word) => text.includes(word));
  });
  const materials = (Object.keys(materialNames) as Blank['material'][]).filter((m) =>
    found.some((b) => b.material === m),
  );
  return (
    <div className="stack" style={{ '--stack-gap': '1.25rem' } as CSSProperties}>
      <TextInput
        size="md"
        type="search"
        label="Find a blank"
        placeholder="mug, slate, 20 × 20…"
        value={sought}
        onChange={(event) => setSought(event.currentTarget.value)}
        className={styles.search}
      />
      {found.length === 0 && (
        <p>
          No blank is called that.{' '}
          <Link to="/setups" search={{ open: 'new-blank' }}>
            Add one in Setups
          </Link>
          : its size is all you need.
        </p>
      )}
      {materials.map((material) => (
        <div key={material}>
          <h3>{materialNames[material]}</h3>
          <ul className={styles.blanks}>
            {found
              .filter((blank) => blank.material === material)
              .map((blank) => (
                <li key={blank.id}>
                  <button
                    type="button"
                    className={styles.blankCard}
                    aria-pressed={blank.id === props.chosenId}
                    onClick={() => props.onPick(blank)}
                  >
                    <BlankDrawing blank={blank} width={84} />
                    <span className={styles.cardWords}>
                      <span className={styles.cardName}>{blank.name}</span>
                      <span className={styles.cardFact}>{blankSizeText(blank.shape, lengthUnit)}</span>
                      {blank.demo && <span className="demo-word">demo</span>}
                    </span>
                  </button>
                </li>
              ))}
          </ul>
        </div>
      ))}
    </div>
  );
}
