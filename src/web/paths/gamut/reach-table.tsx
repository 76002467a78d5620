import { percentText } from '../../words/index.js';
import styles from './gamut.module.css';
import type { HueReach } from './reach-by-hue.js';

/** What is reached, hue by hue, for reading and for screen readers. */
export function ReachTable({ rows }: { readonly rows: readonly HueReach[] }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways must be reached by keys
    <section className={styles.table} tabIndex={0} aria-label="What is reached, hue by hue">
      <table>
        <thead>
          <tr>
            <th scope="col">Hue</th>
            <th scope="col">Strongest (C*)</th>
            <th scope="col">at lightness (L*)</th>
            <th scope="col">sRGB’s strongest</th>
            <th scope="col">Of sRGB’s</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => {
            const share = row.otherChroma > 0 ? row.chroma / row.otherChroma : 1;
            return (
              <tr key={row.name}>
                <th scope="row">{row.name}</th>
                <td>{row.chroma.toFixed(0)}</td>
                <td>{row.lightness.toFixed(0)}</td>
                <td>{row.otherChroma.toFixed(0)}</td>
                <td>
                  <span className={styles.bar} aria-hidden="true">
                    <i style={{ width: `${Math.min(100, share * 100)}%` }} />
                  </span>{' '}
                  {percentText(share)}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
