import type { PathCheck } from '#contract';
import styles from './swatch-pairs.module.css';

type Patch = PathCheck['patches'][number];

/** Colours wanted and seen, half beside half without a gap, on the neutral ground; the furthest off first. */
export function SwatchPairs({
  patches,
  label,
}: {
  readonly patches: readonly Patch[];
  readonly label: string;
}) {
  const sorted = [...patches].sort((one, two) => two.deltaE00 - one.deltaE00);
  return (
    <ul className={styles.pairs} aria-label={label}>
      {sorted.map((patch, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: patches of a check have no name of their own
        <li key={i}>
          <i style={{ background: patch.wantedHex }} />
          <i style={{ background: patch.seenHex }} />
          <span className="figures">
            <span className="said-only">
              Wanted {patch.wantedHex}, came out {patch.seenHex}: ΔE00{' '}
            </span>
            {patch.deltaE00.toFixed(1)}
          </span>
        </li>
      ))}
    </ul>
  );
}
