import type { ReactNode } from 'react';
import styles from './swatches.module.css';

/** Two colours edge to edge on the grey surround: nothing between them, so that the eye can compare. */
export function PairSwatch(props: {
  readonly left: string;
  readonly right: string;
  readonly size?: 'small' | 'large';
}) {
  return (
    <span className={styles.pair} data-size={props.size ?? 'small'} aria-hidden="true">
      <i style={{ background: props.left }} />
      <i style={{ background: props.right }} />
    </span>
  );
}

/** Pairs in rows on one surround; the words of each beneath it. */
export function SwatchList({ children }: { readonly children: ReactNode }) {
  return <ul className={styles.list}>{children}</ul>;
}

export function SwatchItem(props: {
  readonly left: string;
  readonly right: string;
  readonly children: ReactNode;
}) {
  return (
    <li className={styles.item}>
      <span className={styles.ground}>
        <PairSwatch left={props.left} right={props.right} />
      </span>
      <span className={styles.words}>{props.children}</span>
    </li>
  );
}
