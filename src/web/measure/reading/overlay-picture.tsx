import { useState } from 'react';
import type { Reading } from '#contract';
import { overlayUrl } from '../../api/index.js';
import styles from './reading.module.css';

const steps = [1, 2, 4] as const;

/** The picture with what was read drawn over it; steps closer, and is then moved about by scrolling. */
export function OverlayPicture({ reading }: { readonly reading: Reading }) {
  const [step, setStep] = useState(0);
  const [failed, setFailed] = useState(false);
  if (!reading.overlay) return null;
  const times = steps[step] ?? 1;
  return (
    <figure className={styles.overlay}>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a part that scrolls must be reached by keyboard (WCAG 2.1.1) */}
      <section aria-label="What was read, drawn over the picture" tabIndex={0} className={styles.window}>
        {failed ? (
          <p className={styles.onGround}>The picture is no longer kept; what was read from it is.</p>
        ) : (
          <img
            src={overlayUrl(reading, times === 1 ? 1200 : 2400)}
            width={reading.overlay.widthPixels}
            height={reading.overlay.heightPixels}
            style={
              times === 1 ? undefined : { width: `${times * 100}%`, maxWidth: 'none', maxHeight: 'none' }
            }
            alt={`The ${reading.from} ${reading.fileName} with the outline of each patch read, doubtful ones crossed`}
            onError={() => setFailed(true)}
          />
        )}
      </section>
      <figcaption className={styles.overlayFoot}>
        <span className="soft">Outlines show what was measured; crossed ones were left out.</span>
        <span className={styles.zoom}>
          <button
            type="button"
            className="link-button"
            disabled={step === 0}
            onClick={() => setStep(step - 1)}
          >
            Step back
          </button>
          <button
            type="button"
            className="link-button"
            disabled={step === steps.length - 1}
            onClick={() => setStep(step + 1)}
          >
            Look closer
          </button>
        </span>
      </figcaption>
    </figure>
  );
}
