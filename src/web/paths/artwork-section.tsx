import { Link, useNavigate, useSearch } from '@tanstack/react-router';
import type { ArtworkColours, ColourPath } from '#contract';
import { deltaE00, labFromSrgb } from '#craft/colour';
import { useArtworkColours, useArtworks } from '../api/index.js';
import { ProblemNote, Working } from '../frame/index.js';
import { deltaText, differenceWords, percentText } from '../words/index.js';
import styles from './artwork-section.module.css';
import { bytesOfHex } from './lookup/use-asked.js';
import { SwatchItem, SwatchList } from './swatches.js';

const whyWords = {
  'not-reached': 'out of reach',
  doubt: 'the path is not sure of it',
  fine: 'comes out well',
} as const satisfies Record<Row['why'], string>;

/** Which colours of an artwork suffer on this path. */
export function ArtworkSection({ path }: { readonly path: ColourPath }) {
  const { artwork } = useSearch({ from: '/paths/$pathId' });
  const navigate = useNavigate({ from: '/paths/$pathId' });
  const artworks = useArtworks();
  const chosen = artworks.data?.find((one) => one.id === artwork) ?? null;
  const colours = useArtworkColours(path.id, chosen?.id ?? null);
  return (
    <section aria-labelledby="artwork-title" className={styles.section}>
      <h2 id="artwork-title">Which colours of your artwork will suffer?</h2>
      {artworks.error && <ProblemNote error={artworks.error} />}
      {artworks.data?.length === 0 && (
        <p>
          There is no artwork yet. <Link to="/">Bring one in at Sheet.</Link>
        </p>
      )}
      <ul className={styles.pictures}>
        {artworks.data?.map((one) => (
          <li key={one.id}>
            <button
              type="button"
              className={styles.picture}
              aria-pressed={one.id === artwork}
              onClick={() =>
                void navigate({
                  search: (old) => ({ ...old, artwork: one.id }),
                  replace: true,
                  resetScroll: false,
                })
              }
            >
              <span className={styles.frame}>
                <img src={`/api/artwork/${encodeURIComponent(one.id)}/picture?max=200`} alt="" />
              </span>
              <span className={styles.title}>{one.fileName}</span>
            </button>
          </li>
        ))}
      </ul>
      {chosen && colours.isPending && <Working step={`Looking through ${chosen.fileName}`} share={null} />}
      {chosen && colours.error && (
        <ProblemNote error={colours.error} onAgain={() => void colours.refetch()} />
      )}
      {chosen && colours.data && <Answer colours={colours.data} name={chosen.fileName} />}
      {chosen && colours.data && path.origin === 'measured' && (
        <p>
          <Link to="/measure" search={{ start: 'follow-up', path: path.id, artwork: chosen.id }}>
            Make a follow-up sheet for the colours of this artwork
          </Link>
        </p>
      )}
    </section>
  );
}

function Answer({ colours, name }: { readonly colours: ArtworkColours; readonly name: string }) {
  const changed = colours.colours.filter((one) => one.why !== 'fine');
  const fine = colours.colours.filter((one) => one.why === 'fine');
  const sentences =
    colours.sentences.length > 0
      ? colours.sentences
      : [
          changed.length === 0
            ? `All colours of ${name} come out well.`
            : `${percentText(colours.changedShare)} of ${name} comes out more than ${deltaText(colours.thresholdDeltaE00)} off.`,
        ];
  return (
    <>
      <div role="status">
        {sentences.map((sentence, i) => (
          <p key={sentence} className={i === 0 ? styles.lead : undefined}>
            {sentence}
          </p>
        ))}
      </div>
      {changed.length > 0 && (
        <>
          <p className="soft">Left as in the artwork, right as it comes out.</p>
          <Colours colours={changed} />
        </>
      )}
      {fine.length > 0 && (
        <details open={changed.length === 0}>
          <summary>Colours that come out well</summary>
          <div className={styles.fine}>
            <Colours colours={fine} />
          </div>
        </details>
      )}
      {colours.colours.some(isLifted) && (
        <p className="soft">
          This print’s black is lighter than a screen’s. All darks are lifted with it, so that they keep their
          steps; that lift is not counted in the differences.
        </p>
      )}
    </>
  );
}

type Row = ArtworkColours['colours'][number];

/** Seen side by side it differs far more than is counted: the darks are lifted onto the print's black. */
const isLifted = (one: Row): boolean =>
  deltaE00(labOf(one.wantedHex), labOf(one.comesOutHex)) > one.deltaE00 + 2;
const labOf = (hex: string) => {
  const [r, g, b] = bytesOfHex(hex);
  return labFromSrgb([r / 255, g / 255, b / 255]);
};

function Colours({ colours }: { readonly colours: readonly Row[] }) {
  return (
    <SwatchList>
      {colours.map((one) => (
        <SwatchItem key={one.wantedHex + one.comesOutHex} left={one.wantedHex} right={one.comesOutHex}>
          <span>{isLifted(one) ? 'lifted with the black' : differenceWords(one.deltaE00)}</span>
          <span className="soft figures">
            {deltaText(one.deltaE00)} · {percentText(one.share)} of it
          </span>
          {one.why !== 'fine' && <span className="soft">{whyWords[one.why]}</span>}
        </SwatchItem>
      ))}
    </SwatchList>
  );
}
