import type { Unevenness } from '#contract';
import { Told } from '../frame/index.js';
import styles from './platen-map.module.css';

/** A letter for each thing found, in its order; null for 'even', which is nowhere to be seen. */
export const markLetters = (findings: readonly Unevenness[]): (string | null)[] => {
  let next = 0;
  return findings.map((one) => {
    if (one.kind === 'even') return null;
    next += 1;
    return String.fromCharCode(64 + next);
  });
};

/** A disc with the finding's letter, on the map and in the list. */
export const LetterDisc = ({
  letter,
  x,
  y,
}: {
  readonly letter: string;
  readonly x: number;
  readonly y: number;
}) => (
  <g>
    <circle cx={x} cy={y} r={12} className={styles.disc} />
    <text x={x} y={y + 5.5} textAnchor="middle" className={styles.letter}>
      {letter}
    </text>
  </g>
);

/** Each finding where it is: a spot ringed, a tilt as an arrow to its worse end, a rim as a line within the edges. */
export function FindingMarks({
  findings,
  toX,
  toY,
  figures,
}: {
  readonly findings: readonly Unevenness[];
  /** Columns and rows of the figures on the map: an arrow goes between them. */
  readonly figures: { readonly columns: number; readonly rows: number };
  toX(across: number): number;
  toY(along: number): number;
}) {
  const letters = markLetters(findings);
  const [left, top, right, bottom] = [toX(0), toY(0), toX(1), toY(1)];
  const inside = (v: number, low: number, high: number) => Math.min(high - 14, Math.max(low + 14, v));
  return (
    <g>
      {findings.map((one, i) => {
        const letter = letters[i];
        if (!letter) return null;
        if (one.kind === 'rim' || one.at === null) {
          // Close to the edge, where no figure stands.
          const inset = 8;
          const rect = {
            x: left + inset,
            y: top + inset,
            width: right - left - 2 * inset,
            height: bottom - top - 2 * inset,
            rx: 8,
          };
          return (
            <g key={letter}>
              <rect {...rect} className={styles.under} />
              <rect {...rect} className={styles.mark} strokeDasharray="7 6" />
              <LetterDisc letter={letter} x={left + inset + 10} y={top + inset + 10} />
            </g>
          );
        }
        const x = toX(one.at.across);
        const y = toY(one.at.along);
        if (one.kind === 'tilt') {
          // Through the middle, stopping short of the end so that its figure can be read.
          const [dx, dy] = [x - toX(0.5), y - toY(0.5)];
          const upright = Math.abs(dy) > Math.abs(dx);
          const [mx, my] = [
            toX(0.5) + (upright && figures.columns % 2 === 1 ? (right - left) / figures.columns / 2 : 0),
            toY(0.5) + (!upright && figures.rows % 2 === 1 ? (bottom - top) / figures.rows / 2 : 0),
          ];
          const long = Math.hypot(dx, dy) || 1;
          const [ux, uy] = [dx / long, dy / long];
          const reach = Math.min(long * 0.62, 0.36 * Math.min(right - left, bottom - top) * 1.2);
          const [tx, ty] = [mx + ux * reach, my + uy * reach];
          const [fx, fy] = [mx - ux * reach, my - uy * reach];
          const head = `M${tx - ux * 13 - uy * 8} ${ty - uy * 13 + ux * 8}L${tx} ${ty}L${tx - ux * 13 + uy * 8} ${ty - uy * 13 - ux * 8}`;
          const path = `M${fx} ${fy}L${tx} ${ty}${head}`;
          return (
            <g key={letter}>
              <path d={path} className={styles.under} />
              <path d={path} className={styles.mark} />
              <LetterDisc
                letter={letter}
                x={inside(tx + ux * 17, left, right)}
                y={inside(ty + uy * 17, top, bottom)}
              />
            </g>
          );
        }
        return (
          <g key={letter}>
            <circle cx={x} cy={y} r={23} className={styles.under} />
            <circle cx={x} cy={y} r={23} className={styles.mark} />
            <LetterDisc letter={letter} x={inside(x + 19, left, right)} y={inside(y - 19, top, bottom)} />
          </g>
        );
      })}
    </g>
  );
}

/** What was found, in words, under the same letters as on the map. */
export function FindingList({ findings }: { readonly findings: readonly Unevenness[] }) {
  const letters = markLetters(findings);
  return (
    <ul className={styles.findings} aria-label="What was found">
      {findings.map((one, i) => {
        const letter = letters[i];
        return (
          <li key={`${one.kind} ${one.words}`}>
            {letter && (
              <svg viewBox="0 0 28 28" width={28} height={28} role="img" aria-label={`${letter} on the map`}>
                <LetterDisc letter={letter} x={14} y={14} />
              </svg>
            )}
            <span className={letter ? styles.findingWords : styles.letterless}>
              <Told text={one.words} />
            </span>
            <span className={`${styles.likely} ${letter ? '' : styles.letterless}`}>
              <Told text={one.likely} />
            </span>
          </li>
        );
      })}
    </ul>
  );
}
