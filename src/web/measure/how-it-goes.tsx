import type { ReactNode } from 'react';
import styles from './measure.module.css';

/** The round in four small drawings, for whoever has not gone it yet. */
export function HowItGoes() {
  return (
    <ol className={styles.how}>
      <Station title="Print" says="A sheet of colour patches, by the way you print all your work.">
        <Sheet />
      </Station>
      <Station title="Press" says="On the coating you sell, by its usual recipe.">
        <Press />
      </Station>
      <Station title="Scan" says="Drop the scan here. A phone photo will do, less surely.">
        <Flatbed />
      </Station>
      <Station
        title="Use"
        says="Your sheets come out as near the screen as your dyes can, and say how surely."
      >
        <Pair />
      </Station>
    </ol>
  );
}

function Station(props: { readonly title: string; readonly says: string; readonly children: ReactNode }) {
  return (
    <li>
      <svg
        viewBox="0 0 120 84"
        width={120}
        height={84}
        fill="var(--raised)"
        stroke="currentColor"
        strokeWidth={1.5}
        strokeLinejoin="round"
        strokeLinecap="round"
        aria-hidden="true"
      >
        {props.children}
      </svg>
      <h2>{props.title}</h2>
      <p>{props.says}</p>
    </li>
  );
}

// Colours of the patches drawn: muted, evenly far round the circle of hues.
const patches = [
  '#4f6d7a',
  '#b0665c',
  '#c9a24b',
  '#6f8a5b',
  '#7b6a92',
  '#9a9a9a',
  '#3c3c3c',
  '#c98a6b',
  '#5d9aa0',
];

const Sheet = () => (
  <>
    <path d="M36 6 H84 V78 H36 Z" />
    {patches.concat(patches.slice(2, 5)).map((colour, i) => (
      <rect
        // biome-ignore lint/suspicious/noArrayIndexKey: a drawing that does not change
        key={i}
        x={43 + (i % 3) * 12}
        y={17 + Math.floor(i / 3) * 13}
        width={10}
        height={10}
        fill={colour}
        stroke="none"
      />
    ))}
    <path d="M40 10 h4 v4 M80 10 h-4 v4 M40 74 h4 v-4 M80 74 h-4 v-4" fill="none" strokeWidth={1.2} />
  </>
);

const Press = () => (
  <>
    <path d="M20 62 H100 V70 H20 Z" />
    <path d="M28 55 H92 V61 H28 Z" />
    <path d="M24 26 H96 L100 40 H20 Z" />
    <path d="M60 26 V14 H86" fill="none" />
    <path d="M40 45 v5 M60 45 v5 M80 45 v5" fill="none" strokeWidth={1.2} />
    <path d="M20 40 V62 M100 40 V44" fill="none" opacity={0.5} />
  </>
);

const Flatbed = () => (
  <>
    <path d="M12 56 H98 V72 H12 Z" />
    <path d="M12 56 L30 24 H108 L98 56 Z" />
    <path d="M36 50 L47 30 H92 L84 50 Z" fill="none" />
    <path d="M30 24 L22 8 H100 L108 24" fill="none" />
    <path d="M20 64 H36" fill="none" />
  </>
);

const Pair = () => (
  <>
    <path d="M10 18 H54 V56 H10 Z" />
    <path d="M32 56 V66 M22 66 H42" fill="none" />
    <rect x={16} y={24} width={32} height={26} fill="#4f6d7a" stroke="none" />
    <path d="M76 26 H104 V70 H76 Z" />
    <path d="M76 36 C62 34 62 60 76 58" fill="none" />
    <rect x={79} y={34} width={22} height={28} fill="#4f6d7a" stroke="none" />
  </>
);
