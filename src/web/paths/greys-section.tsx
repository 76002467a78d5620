import { Switch } from '@mantine/core';
import { useMemo, useState } from 'react';
import type { ColourPath, Grade, PathLook } from '#contract';
import { formatHex, srgb8FromLab, type Triple3 } from '#craft/colour';
import { LineChart } from '../charts/index.js';
import { signed } from '../words/index.js';
import { besideWhite, castOf, castWords, leaning } from './cast.js';
import styles from './greys-section.module.css';

interface Grey {
  readonly wantedL: number;
  readonly lab: Triple3;
  readonly plain: Triple3;
  readonly sd: readonly [number, number, number] | null;
}

/** 90 % of a normal spread lie within so many standard deviations of its middle. */
const ninety = 1.645;

/** Greys as they come out, beside the plain driver's. */
export function GreysSection({ path, look }: { readonly path: ColourPath; readonly look: PathLook }) {
  const [beside, setBeside] = useState(true);
  const greys = useMemo((): Grey[] => {
    const rising = [...look.neutrals].sort((one, two) => one.wantedL - two.wantedL);
    // The lightest is the bare ground.
    const white = rising.at(-1)?.lab ?? [100, 0, 0];
    return rising.map((one) => ({
      wantedL: one.wantedL,
      lab: besideWhite(one.lab, white),
      plain: besideWhite(one.plainLab, white),
      sd: one.sdLab,
    }));
  }, [look]);
  if (greys.length === 0) return <p>This path says nothing of greys.</p>;
  const worst = most(greys, (grey) => grey.lab);
  const worstPlain = most(greys, (grey) => grey.plain);
  const span = Math.max(
    3,
    ...greys.flatMap(({ lab, plain, sd }) => [
      ...(beside ? [Math.abs(plain[1]), Math.abs(plain[2])] : []),
      Math.abs(lab[1]) + ninety * (sd?.[1] ?? 0),
      Math.abs(lab[2]) + ninety * (sd?.[2] ?? 0),
    ]),
  );
  const top = Math.ceil(span * 1.05);
  return (
    <section aria-labelledby="greys-title" className={styles.section}>
      <h2 id="greys-title">Greys</h2>
      <p>
        {worst.cast < 1
          ? 'From black to white, greys come out neutral.'
          : `Greys stay within ${worst.cast.toFixed(1)} of neutral; furthest near lightness ${worst.grey.wantedL.toFixed(0)}, towards ${leaning(worst.grey.lab)}.`}{' '}
        {`Equal numbers sent straight to the driver would go off by up to ${worstPlain.cast.toFixed(1)}, towards ${leaning(worstPlain.grey.plain)}.`}
      </p>
      <div className={styles.strips}>
        <Strip words="through this path" colours={greys.map((grey) => hexOf(grey.lab))} />
        <Strip words="the plain driver" colours={greys.map((grey) => hexOf(grey.plain))} />
      </div>
      <Switch
        size="md"
        label="The plain driver beside it"
        checked={beside}
        onChange={(event) => setBeside(event.currentTarget.checked)}
      />
      <div className={styles.charts}>
        {([1, 2] as const).map((k) => (
          <figure key={k} className={styles.figure}>
            <figcaption>
              {k === 1 ? 'Red (above) and green (below): a*' : 'Yellow (above) and blue (below): b*'}
            </figcaption>
            <LineChart
              label={`${k === 1 ? 'Red–green' : 'Yellow–blue'} cast over lightness. This path: between ${range(greys.map((grey) => grey.lab[k]))}. The plain driver: between ${range(greys.map((grey) => grey.plain[k]))}.`}
              x={{ min: 0, max: 100, label: 'Lightness asked for (L*)', ticks: [0, 20, 40, 60, 80, 100] }}
              y={{ min: -top, max: top, label: k === 1 ? 'a*' : 'b*', text: (value) => signed(value, 0) }}
              levels={[{ y: 0, words: 'neutral' }]}
              bands={
                greys.every((grey) => grey.sd)
                  ? [
                      {
                        points: greys.map((grey): [number, number, number] => [
                          grey.wantedL,
                          grey.lab[k] - ninety * (grey.sd?.[k] ?? 0),
                          grey.lab[k] + ninety * (grey.sd?.[k] ?? 0),
                        ]),
                        colour: 'var(--accent)',
                      },
                    ]
                  : []
              }
              lines={[
                {
                  name: 'this path',
                  points: greys.map((grey): [number, number] => [grey.wantedL, grey.lab[k]]),
                  colour: 'var(--accent)',
                },
                ...(beside
                  ? [
                      {
                        name: 'driver',
                        points: greys.map((grey): [number, number] => [grey.wantedL, grey.plain[k]]),
                        stroke: 'dashed' as const,
                        colour: 'var(--ink-soft)',
                      },
                    ]
                  : []),
              ]}
            />
          </figure>
        ))}
      </div>
      <p className="soft">
        {greys.every((grey) => grey.sd)
          ? bandWords(path.measurement?.grade)
          : 'How sure this is, nobody measured. '}
        Counted beside this path’s own white.
      </p>
      <details>
        <summary>The same as a table</summary>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways must be reached by keys */}
        <section className={styles.table} tabIndex={0} aria-label="Greys in figures">
          <table>
            <thead>
              <tr>
                <th scope="col">L* asked</th>
                <th scope="col">comes out L*, a*, b*</th>
                <th scope="col">looks</th>
                <th scope="col">plain driver L*, a*, b*</th>
                <th scope="col">looks</th>
              </tr>
            </thead>
            <tbody>
              {greys.map((grey) => (
                <tr key={grey.wantedL}>
                  <th scope="row">{grey.wantedL.toFixed(0)}</th>
                  <td>{grey.lab.map((v) => signed(v, 1)).join(', ')}</td>
                  <td>{castWords(grey.lab)}</td>
                  <td>{grey.plain.map((v) => signed(v, 1)).join(', ')}</td>
                  <td>{castWords(grey.plain)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      </details>
    </section>
  );
}

/** The band tells what the patches leave open; what the eye or reader that saw them had wrong is the same in all. */
const bandWords = (grade: Grade | undefined): string =>
  grade === 'A'
    ? 'The band holds the true grey nine times out of ten. '
    : 'The band holds the grey nine times out of ten, as it was read; what the reading itself has wrong comes on top. ';

function Strip({ words, colours }: { readonly words: string; readonly colours: readonly string[] }) {
  return (
    <div className={styles.strip}>
      <span className={styles.stripWords}>{words}</span>
      <span className={styles.greys} aria-hidden="true">
        {colours.map((colour, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: steps from black to white stay in place
          <i key={i} style={{ background: colour }} />
        ))}
      </span>
    </div>
  );
}

const hexOf = (lab: Triple3) => formatHex(srgb8FromLab(lab));
const range = (values: readonly number[]) =>
  `${signed(Math.min(...values), 1)} and ${signed(Math.max(...values), 1)}`;

function most(greys: readonly Grey[], labOf: (grey: Grey) => Triple3): { grey: Grey; cast: number } {
  return greys
    .map((grey) => ({ grey, cast: castOf(labOf(grey)) }))
    .reduce((worst, one) => (one.cast > worst.cast ? one : worst));
}
