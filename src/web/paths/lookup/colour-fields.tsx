import { ColorPicker, NumberInput, Radio, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { Triple3 } from '#craft/colour';
import styles from './lookup.module.css';
import { type Asked, askedByHex, askedByLab, type LabWhite } from './use-asked.js';

const hexWords = /^#?([0-9a-f]{3}|[0-9a-f]{6})$/i;

/** '#f80' and 'ff8800' alike; null: not a colour yet. */
function readHex(words: string): string | null {
  const found = hexWords.exec(words.trim())?.[1]?.toLowerCase();
  if (!found) return null;
  return `#${found.length === 3 ? [...found].map((c) => c + c).join('') : found}`;
}

/** A colour to ask for: by hand, by number, by Lab. */
export function ColourFields({ asked, onAsk }: { readonly asked: Asked; onAsk(asked: Asked): void }) {
  const [words, setWords] = useState(asked.hex);
  const [touched, setTouched] = useState(false);
  useEffect(() => {
    setWords((old) => (readHex(old) === asked.hex ? old : asked.hex));
  }, [asked.hex]);
  const bad = touched && readHex(words) === null;
  const setLab = (k: 0 | 1 | 2, value: number | string) => {
    const typed = typeof value === 'number' ? value : Number.parseFloat(value);
    if (!Number.isFinite(typed) || typed === asked.lab[k]) return;
    const lab: Triple3 = [...asked.lab];
    lab[k] = typed;
    onAsk(askedByLab(lab, asked.white));
  };
  return (
    <div className={styles.fields}>
      <ColorPicker
        format="hex"
        value={asked.hex}
        onChange={(value) => {
          const hex = readHex(value);
          if (hex && hex !== asked.hex) onAsk(askedByHex(hex));
        }}
        saturationLabel="Strength and brightness: arrow keys"
        hueLabel="Hue: arrow keys"
        fullWidth
        size="lg"
      />
      <TextInput
        size="md"
        label="As on a screen (sRGB)"
        placeholder="#b5432e"
        value={words}
        spellCheck={false}
        autoComplete="off"
        error={bad ? 'Six hexadecimal digits, like #b5432e' : undefined}
        onChange={(event) => {
          setWords(event.currentTarget.value);
          const hex = readHex(event.currentTarget.value);
          if (hex && hex !== asked.hex) onAsk(askedByHex(hex));
        }}
        onBlur={() => setTouched(true)}
      />
      <fieldset className={styles.lab}>
        <legend>As Lab (D50, 2°)</legend>
        <div className={styles.labFields}>
          {(['L*', 'a*', 'b*'] as const).map((name, i) => (
            <NumberInput
              key={name}
              size="md"
              label={name}
              hideControls
              value={asked.lab[i as 0 | 1 | 2]}
              min={i === 0 ? 0 : -160}
              max={i === 0 ? 100 : 160}
              decimalScale={1}
              onChange={(value) => setLab(i as 0 | 1 | 2, value)}
            />
          ))}
        </div>
        <Radio.Group
          size="md"
          label="Counted"
          value={asked.white}
          onChange={(value) => onAsk(askedByLab(asked.lab, value as LabWhite))}
        >
          <div className={styles.radios}>
            <Radio size="md" value="relative" label="beside the piece’s own white" />
            <Radio size="md" value="absolute" label="as an instrument reads it" />
          </div>
        </Radio.Group>
      </fieldset>
    </div>
  );
}
