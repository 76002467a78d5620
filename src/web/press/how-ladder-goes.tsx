import type { ReactNode } from 'react';
import { CouponsDrawing, ScanDrawing, StepsDrawing, WindowDrawing } from './drawings.js';
import styles from './press.module.css';

/** A ladder in four small drawings, for whoever has not pressed one yet. */
export function HowLadderGoes() {
  return (
    <ol className={styles.how}>
      <Station title="Print" says="A sheet of small coupons, by the way you print all your work.">
        <CouponsDrawing />
      </Station>
      <Station title="Press in steps" says="Each a little longer or hotter. A list says what to set next.">
        <StepsDrawing />
      </Station>
      <Station title="Scan" says="All at once, any way round. Or judge them by eye: green, neutral, brown.">
        <ScanDrawing />
      </Station>
      <Station title="Know" says="The recipe at the middle of what is well, and how much it bears.">
        <WindowDrawing />
      </Station>
    </ol>
  );
}

const Station = (props: { readonly title: string; readonly says: string; readonly children: ReactNode }) => (
  <li>
    {props.children}
    <h2>{props.title}</h2>
    <p>{props.says}</p>
  </li>
);
