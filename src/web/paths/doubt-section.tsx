import { Link } from '@tanstack/react-router';
import type { ColourPath, PathLook } from '#contract';
import { lchFromLab } from '#craft/colour';
import { LineChart } from '../charts/index.js';
import { deltaText, differenceWords, labText } from '../words/index.js';
import styles from './doubt-section.module.css';
import { SwatchItem, SwatchList } from './swatches.js';

const shownMost = 8;

/** Where the model is least sure, and which patches it left out. */
export function DoubtSection({ path, look }: { readonly path: ColourPath; readonly look: PathLook }) {
  const bySize = [...look.doubt].sort((one, two) => two.expectedDeltaE00 - one.expectedDeltaE00);
  const worst = bySize[0];
  const mean = look.expectedError?.meanDeltaE00;
  // Where the reading is far rougher than the model, nothing is gained by telling colours apart.
  const least = bySize.at(-1);
  const alike = worst && least && worst.expectedDeltaE00 - least.expectedDeltaE00 < 0.1;
  return (
    <div className={styles.whole}>
      <section aria-labelledby="doubt-title" className={styles.section}>
        <h2 id="doubt-title">Where it is least sure</h2>
        {alike && (
          <p>
            Everywhere alike: about {deltaText(worst.expectedDeltaE00)} for any colour. How the patches were
            read outweighs all that they leave open; a better grade helps more than further patches.
          </p>
        )}
        {worst && !alike && (
          <p>
            {mean !== undefined && `On average a colour is expected to be ${deltaText(mean)} off. `}
            The least sure one may be {deltaText(worst.expectedDeltaE00)} off:{' '}
            {differenceWords(worst.expectedDeltaE00)}.
          </p>
        )}
        {look.doubt.length > 0 && !alike && <DoubtMap doubt={look.doubt} />}
        <ol className={styles.list}>
          {(alike ? [] : bySize.slice(0, shownMost)).map((one) => (
            <li key={one.deviceRgb.join()}>
              <span className={styles.ground} aria-hidden="true">
                <i style={{ background: one.hex }} />
              </span>
              <span className={styles.words}>
                <span className="figures">{deltaText(one.expectedDeltaE00)}</span>
                <span className="soft">{labText(one.lab)}</span>
              </span>
            </li>
          ))}
        </ol>
        {path.origin === 'measured' && !alike && (
          <p>
            <Link to="/measure" search={{ start: 'follow-up', path: path.id }}>
              Make a follow-up sheet
            </Link>{' '}
            with new patches where they help most.
          </p>
        )}
      </section>
      <section aria-labelledby="left-title" className={styles.section}>
        <h2 id="left-title">Patches left out</h2>
        {look.leftOut.length === 0 ? (
          <p>None: every patch fits what the others say.</p>
        ) : (
          <>
            <p>
              {look.leftOut.length === 1 ? 'One patch does' : `${look.leftOut.length} patches do`} not fit
              what all the others say: a speck of dust, a crease, a wrong row. Left as it was read, right as
              the others foretell it.
            </p>
            <SwatchList>
              {look.leftOut.map((one) => (
                <SwatchItem key={one.sampleId} left={one.measuredHex} right={one.expectedHex}>
                  <span>
                    <b>{one.sampleId}</b>, off by {deltaText(one.deltaE00)}
                  </span>
                </SwatchItem>
              ))}
            </SwatchList>
          </>
        )}
      </section>
    </div>
  );
}

/** A dot a colour, by hue and lightness; the larger, the less sure. */
function DoubtMap({ doubt }: { readonly doubt: PathLook['doubt'] }) {
  const greatest = Math.max(...doubt.map((one) => one.expectedDeltaE00), 0.1);
  return (
    <figure className={styles.map}>
      <LineChart
        label={`Doubt by hue and lightness, ${doubt.length} colours; the largest is ${greatest.toFixed(1)} ΔE00. The list below names the least sure ones.`}
        x={{
          min: 0,
          max: 360,
          label: 'Hue',
          ticks: [41, 100, 134, 197, 301, 327],
          text: (value) =>
            ({ 41: 'red', 100: 'yellow', 134: 'green', 197: 'cyan', 301: 'blue', 327: 'magenta' })[value] ??
            String(value),
        }}
        y={{ min: 0, max: 100, label: 'Lightness (L*)', ticks: [0, 20, 40, 60, 80, 100] }}
        lines={[]}
        heightPixels={320}
        surround
        over={(place) =>
          doubt.map((one) => {
            const [l, , hue] = lchFromLab(one.lab);
            const [x, y] = place(hue, l);
            return (
              <circle
                key={one.deviceRgb.join()}
                cx={x}
                cy={y}
                // Area, not width, is what the eye compares.
                r={1 + 8 * Math.sqrt(one.expectedDeltaE00 / greatest)}
                fill={one.hex}
                stroke="#333"
                strokeWidth={0.8}
              />
            );
          })
        }
      />
      <figcaption className="soft">The larger the dot, the less sure the path is of that colour.</figcaption>
    </figure>
  );
}
