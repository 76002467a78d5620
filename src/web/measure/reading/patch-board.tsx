import { type KeyboardEvent, useId, useState } from 'react';
import type { ReadingPatch } from '#contract';
import { labText } from '../../words/index.js';
import { warningText } from '../words.js';
import styles from './reading.module.css';

const cell = 20;
const css = (rgb: readonly number[]) => `rgb(${rgb.map((v) => Math.round(v)).join(' ')})`;

/** Every patch where it lies on the sheet: left what was sent to the printer, right what was seen. */
export function PatchBoard({ patches }: { readonly patches: readonly ReadingPatch[] }) {
  const [at, setAt] = useState<number | null>(null);
  const help = useId();
  const columns = Math.max(0, ...patches.map((patch) => patch.column)) + 1;
  const rows = Math.max(0, ...patches.map((patch) => patch.row)) + 1;
  const chosen = at === null ? null : (patches[at] ?? null);
  const walk = (event: KeyboardEvent) => {
    const steps: Record<string, readonly [number, number]> = {
      ArrowLeft: [-1, 0],
      ArrowRight: [1, 0],
      ArrowUp: [0, -1],
      ArrowDown: [0, 1],
    };
    const step = steps[event.key];
    if (!step) return;
    event.preventDefault();
    const from = chosen ?? patches[0];
    if (!from) return;
    const next = chosen === null ? from : nearest(patches, from, step);
    setAt(patches.indexOf(next));
  };
  return (
    <div className={styles.board}>
      <svg
        viewBox={`-1 -1 ${columns * cell + 2} ${rows * cell + 2}`}
        className={styles.boardPicture}
        role="application"
        aria-label={`The sheet’s ${patches.length} patches. Arrow keys walk from one to the next.`}
        aria-describedby={help}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it is walked by keys
        tabIndex={0}
        onKeyDown={walk}
      >
        {patches.map((patch, i) => (
          <g
            key={patch.index}
            transform={`translate(${patch.column * cell} ${patch.row * cell})`}
            onPointerDown={() => setAt(i)}
          >
            <rect x={1} y={1} width={9} height={18} fill={css(patch.deviceRgb)} />
            <rect x={10} y={1} width={9} height={18} fill={patch.seenHex} />
            {!patch.sound && <path d="M1 1 L19 19 M19 1 L1 19" stroke="#fff" strokeWidth={3.2} fill="none" />}
            {!patch.sound && <path d="M1 1 L19 19 M19 1 L1 19" stroke="#111" strokeWidth={1.4} fill="none" />}
            {i === at && (
              <>
                <rect x={0} y={0} width={20} height={20} fill="none" stroke="#fff" strokeWidth={3} />
                <rect x={0} y={0} width={20} height={20} fill="none" stroke="#111" strokeWidth={1.2} />
              </>
            )}
          </g>
        ))}
      </svg>
      <p id={help} className={styles.boardWords} role="status">
        {chosen ? (
          <PatchWords patch={chosen} />
        ) : (
          'In each, left what was sent to the printer, right what was seen. Press on one, or walk with the arrow keys.'
        )}
      </p>
    </div>
  );
}

function PatchWords({ patch }: { readonly patch: ReadingPatch }) {
  return (
    <>
      Column {patch.column + 1}, row {patch.row + 1}
      {patch.control ? ' (there only to be compared with its likes)' : ''}: sent{' '}
      {patch.deviceRgb.map(Math.round).join(', ')}; seen {labText(patch.lab, 1)}, ±{' '}
      {Math.max(...patch.sdLab).toFixed(1)}.
      {patch.warnings.length > 0 &&
        ` ${patch.sound ? 'Noted' : 'Left out'}: ${patch.warnings.map(warningText).join(', ')}.`}
    </>
  );
}

/** The nearest patch in a direction; stays where there is none. */
function nearest(patches: readonly ReadingPatch[], from: ReadingPatch, [dx, dy]: readonly [number, number]) {
  let best = from;
  let least = Number.POSITIVE_INFINITY;
  for (const patch of patches) {
    const x = patch.column - from.column;
    const y = patch.row - from.row;
    const along = x * dx + y * dy;
    if (along <= 0) continue;
    const aside = Math.abs(x * dy) + Math.abs(y * dx);
    const far = along + 4 * aside;
    if (far < least) {
      least = far;
      best = patch;
    }
  }
  return best;
}
