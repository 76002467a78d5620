import { Dropzone } from '@mantine/dropzone';
import type { Artwork } from '#contract';
import { ProblemNote, Working } from '../frame/index.js';
import styles from './choosers.module.css';
import { pictureUrl } from './picture-url.js';

/** Drop a file, or take one that is in the shop already. What the file is, the server finds out. */
export function ArtworkChooser(props: {
  readonly artworks: readonly Artwork[];
  readonly chosenId: string | null;
  readonly adding: boolean;
  readonly error: unknown;
  onStop(): void;
  onFile(file: File | undefined): void;
  onPick(artwork: Artwork): void;
}) {
  const chosen = props.artworks.find((artwork) => artwork.id === props.chosenId);
  return (
    <div className={styles.artworkChooser}>
      <div className="stack">
        <Dropzone
          onDrop={(files) => props.onFile(files[0])}
          multiple={false}
          className={styles.drop}
          disabled={props.adding}
          inputProps={{ 'aria-label': 'Artwork file' }}
          aria-label="Drop artwork here, or press to choose a file"
        >
          <p className={styles.dropLead}>Drop artwork here</p>
          <p className="soft">
            or <span className={styles.asLink}>choose a file</span>
          </p>
          <p className={styles.dropFacts}>
            As it should read on the piece: Dyewright mirrors the sheet, once.
          </p>
        </Dropzone>
        {chosen && chosen.remarks.length > 0 && (
          <div>
            <h3>About {chosen.fileName}</h3>
            <ul className={styles.remarks}>
              {chosen.remarks.map((remark) => (
                <li key={remark}>{remark}</li>
              ))}
            </ul>
          </div>
        )}
        {props.adding && <Working step="Reading the picture" share={null} onCancel={props.onStop} />}
        {props.error !== null && props.error !== undefined && <ProblemNote error={props.error} />}
      </div>
      {props.artworks.length > 0 && (
        <div>
          <h3>In the shop</h3>
          <ul className={styles.pictures}>
            {props.artworks.map((artwork) => (
              <li key={artwork.id}>
                <button
                  type="button"
                  className={styles.pictureCard}
                  aria-pressed={artwork.id === props.chosenId}
                  onClick={() => props.onPick(artwork)}
                >
                  <span className={styles.pictureFrame}>
                    <img src={pictureUrl(artwork.id, 320)} alt="" loading="lazy" />
                  </span>
                  <span className={styles.cardName}>{artwork.fileName}</span>
                  {artwork.demo && <span className="demo-word">demo</span>}
                </button>
              </li>
            ))}
          </ul>
        </div>
      )}
    </div>
  );
}
