import { Button } from '@mantine/core';
import { useState } from 'react';
import type { ColourAnswer } from '#contract';
import { formatHex } from '#craft/colour';
import { deltaText, differenceSentence, differenceWords, labText } from '../../words/index.js';
import { PairSwatch } from '../swatches.js';
import styles from './lookup.module.css';
import type { Palette } from './use-palette.js';

/** What comes out for the colour asked: two large swatches and a sentence. */
export function AnswerView(props: {
  readonly answer: ColourAnswer;
  /** The colour cannot be shown on a usual screen. */
  readonly beyondScreen: boolean;
  /** A newer one is on its way. */
  readonly stale: boolean;
  readonly palette: Palette;
}) {
  const { answer, palette } = props;
  return (
    <div className={styles.answer} aria-busy={props.stale}>
      <figure className={styles.big}>
        <span className={styles.labels} aria-hidden="true">
          <span>asked</span>
          <span>comes out</span>
        </span>
        <PairSwatch left={answer.wantedHex} right={answer.comesOutHex} size="large" />
      </figure>
      <div role="status" className={styles.said}>
        <h2>{headline(answer)}</h2>
        <p>{detail(answer)}</p>
        {props.beyondScreen && (
          <p className="soft">This screen cannot show the colour asked for; it shows the nearest it can.</p>
        )}
      </div>
      <div className="row">
        <Button
          size="md"
          variant="default"
          disabled={palette.holds(answer.wantedHex)}
          onClick={() => palette.add({ hex: answer.wantedHex, name: '' })}
        >
          {palette.holds(answer.wantedHex) ? 'It is in the palette' : 'Put it in the palette'}
        </Button>
      </div>
    </div>
  );
}

/** What prints instead, and the figures. */
export function AnswerMore({ answer, onAsk }: { readonly answer: ColourAnswer; onAsk(hex: string): void }) {
  return (
    <div className={styles.more}>
      {answer.alternatives.length > 0 && (
        <section aria-labelledby="near-title" className={styles.near}>
          <h3 id="near-title">These print as they look</h3>
          <ul className={styles.neighbours}>
            {answer.alternatives.map((one) => (
              <li key={one.hex + one.why}>
                <button type="button" className={styles.neighbour} onClick={() => onAsk(one.hex)}>
                  <span className={styles.ground} aria-hidden="true">
                    <i style={{ background: one.hex }} />
                  </span>
                  <span>
                    <b>{one.why}</b>
                    <span className="soft figures">
                      {one.hex} · {deltaText(one.deltaE00FromWanted)} from what you asked
                    </span>
                  </span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      <dl className={styles.figures}>
        <Figure
          name="Send the printer"
          value={answer.deviceRgb.map((v) => Math.round(v)).join(', ')}
          says="R, G, B from 0 to 255, with nothing else changing colour on the way"
        />
        <Figure name="The same as hex" value={formatHex(answer.deviceRgb)} />
        <Figure name="Comes out, as an instrument reads it" value={labText(answer.comesOutLab, 1)} />
        <Figure name="Asked for, as an instrument reads it" value={labText(answer.wantedLab, 1)} />
      </dl>
    </div>
  );
}

function headline(answer: ColourAnswer): string {
  if (answer.reached) return answer.missDeltaE00 < 0.8 ? 'It prints as asked.' : 'It prints nearly as asked.';
  return `Out of reach: the nearest is ${differenceWords(answer.missDeltaE00)}.`;
}

function detail(answer: ColourAnswer): string {
  const { reached, missDeltaE00: miss, expectedDeltaE00: expected } = answer;
  if (!reached) {
    const doubt =
      expected === null || expected < miss + 0.3
        ? ''
        : ` With the path’s own doubt, expect ${deltaText(expected)}.`;
    return `It comes out ${deltaText(miss)} from what you asked.${doubt}`;
  }
  if (expected === null) return 'That is what the profile says; how sure it is, nobody measured.';
  return `The piece may still be ${deltaText(expected)} off. ${differenceSentence(expected)}`;
}

function Figure({
  name,
  value,
  says,
}: {
  readonly name: string;
  readonly value: string;
  readonly says?: string;
}) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <span className={styles.value}>
          <code>{value}</code>
          <Copy name={name} value={value} />
        </span>
        {says && <span className="soft">{says}</span>}
      </dd>
    </div>
  );
}

/** On plain HTTP the clipboard is out of reach; then the figure is there to be selected. */
function Copy({ name, value }: { readonly name: string; readonly value: string }) {
  const [copied, setCopied] = useState<string | null>(null);
  if (!('clipboard' in navigator)) return null;
  return (
    <button
      type="button"
      className="link-button"
      aria-label={`Copy: ${name}`}
      onClick={() => {
        navigator.clipboard.writeText(value).then(
          () => setCopied(value),
          () => setCopied(null),
        );
      }}
    >
      {copied === value ? 'copied' : 'copy'}
    </button>
  );
}
