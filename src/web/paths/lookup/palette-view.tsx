import { TextInput } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import type { ColourPath } from '#contract';
import { useColourAnswers } from '../../api/index.js';
import { ProblemNote } from '../../frame/index.js';
import { deltaText, differenceWords } from '../../words/index.js';
import { PairSwatch } from '../swatches.js';
import styles from './lookup.module.css';
import { PaletteSheet } from './palette-sheet.js';
import type { Palette } from './use-palette.js';

/** Colours gathered, each with what comes out of it, and the sheet to print them. */
export function PaletteView(props: {
  readonly path: ColourPath;
  readonly palette: Palette;
  onAsk(hex: string): void;
}) {
  const { path, palette } = props;
  const answers = useColourAnswers(
    path.id,
    palette.colours.map(({ hex }) => ({ hex })),
  );
  // The answers may still be those to the question before.
  const answerOf = (hex: string) =>
    answers.data?.find((one) => one.wantedHex.toLowerCase() === hex.toLowerCase());
  return (
    <section aria-labelledby="palette-title" className={styles.palette}>
      <h2 id="palette-title">Palette</h2>
      {palette.colours.length === 0 ? (
        <p>
          Gather colours here to print them as named swatches: then you choose with the piece in hand instead
          of by the screen. Or{' '}
          <Link to="/measure" search={{ start: 'palette', path: path.id }}>
            print a palette over all that this path reaches
          </Link>
          .
        </p>
      ) : (
        <>
          {answers.error && <ProblemNote error={answers.error} onAgain={() => void answers.refetch()} />}
          <p className="soft">Left as asked, right as it comes out.</p>
          <ul className={styles.gathered}>
            {palette.colours.map((colour) => {
              const answer = answerOf(colour.hex);
              return (
                <li key={colour.hex}>
                  <span className={styles.paletteGround}>
                    <PairSwatch left={colour.hex} right={answer?.comesOutHex ?? colour.hex} />
                  </span>
                  <TextInput
                    size="sm"
                    aria-label={`Name of ${colour.hex}`}
                    placeholder={colour.hex}
                    maxLength={40}
                    value={colour.name}
                    onChange={(event) => palette.rename(colour.hex, event.currentTarget.value)}
                  />
                  <span className="soft figures">
                    {answer
                      ? answer.reached
                        ? 'prints as asked'
                        : `${differenceWords(answer.missDeltaE00)}, ${deltaText(answer.missDeltaE00)}`
                      : 'asking…'}
                  </span>
                  <span className="row">
                    <button type="button" className="link-button" onClick={() => props.onAsk(colour.hex)}>
                      Look at {colour.name || colour.hex}
                    </button>
                    <button
                      type="button"
                      className="link-button"
                      aria-label={`Take ${colour.name || colour.hex} out`}
                      onClick={() => palette.remove(colour.hex)}
                    >
                      Take out
                    </button>
                  </span>
                </li>
              );
            })}
          </ul>
          <PaletteSheet path={path} colours={palette.colours} />
        </>
      )}
    </section>
  );
}
