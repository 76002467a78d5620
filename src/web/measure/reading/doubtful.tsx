import type { ReadingPatch } from '#contract';
import { warningText } from '../words.js';
import styles from './reading.module.css';

/** Patches that were left out, by place and reason. */
export function Doubtful({ patches }: { readonly patches: readonly ReadingPatch[] }) {
  const left = patches.filter((patch) => !patch.sound);
  if (left.length === 0) return <p>Every patch could be read.</p>;
  const shown = left.slice(0, 12);
  return (
    <>
      <p>
        {left.length === 1 ? 'One patch was' : `${left.length} patches were`} left out. The path is learnt
        without {left.length === 1 ? 'it' : 'them'}.
      </p>
      <ul className={styles.doubtful}>
        {shown.map((patch) => (
          <li key={patch.index}>
            <i style={{ background: patch.seenHex }} aria-hidden="true" />
            <span>
              Column {patch.column + 1}, row {patch.row + 1}:{' '}
              {patch.warnings.map(warningText).join(', ') || 'doubtful'}
            </span>
          </li>
        ))}
      </ul>
      {left.length > shown.length && (
        <p className="soft">And {left.length - shown.length} more, crossed in the picture.</p>
      )}
    </>
  );
}
