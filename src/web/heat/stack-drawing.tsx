import { useElementSize } from '@mantine/hooks';
import { useId } from 'react';
import type { HeatLook } from '#contract';
import { usePreferences } from '../frame/index.js';
import { temperatureText, thicknessText } from '../words/index.js';
import styles from './heat.module.css';

type Layer = HeatLook['layers'][number];

const basisWords: Record<Layer['basis'], string> = {
  published: '',
  memory: 'from memory',
  guess: 'a guess',
};

/** Thicknesses reach from a hair's width to a tile: drawn as their logarithm, so that each can be seen. */
const tall = (mm: number): number => Math.max(24, 20 + 18 * Math.log10(1 + mm / 0.05));

/** What lies in the press from top to bottom, with the place of the dye. */
export function StackDrawing({
  look,
  platenC,
  bothSides,
  heater,
}: {
  readonly look: HeatLook;
  /** What gives the heat: 'platen', 'heated wrap', 'hot air'. */
  readonly heater: string;
  readonly platenC: number;
  readonly bothSides: boolean;
}) {
  const { temperatureUnit, lengthUnit } = usePreferences();
  const { ref, width: measured } = useElementSize<HTMLDivElement>();
  const id = useId();
  const width = Math.max(220, measured || 300);
  const drawn = 78;
  let y = 46;
  const rows = look.layers.map((layer) => {
    const row = { layer, y, height: Math.max(tall(layer.thicknessMm), 42) };
    y += row.height;
    return row;
  });
  const bottom = y;
  const dyeY = dyeLevel(rows);
  const height = bottom + (bothSides ? 46 : 10);
  const fills: Record<string, string> = {
    cover: `url(#${id}-cover)`,
    paper: 'var(--raised)',
    coating: 'var(--accent-wash)',
    blank: `url(#${id}-blank)`,
    pad: `url(#${id}-pad)`,
  };
  return (
    <figure className={styles.stack}>
      <figcaption>What lies in the {heater === 'hot air' ? 'oven' : 'press'}</figcaption>
      <div ref={ref}>
        <svg
          width={width}
          height={height}
          role="img"
          aria-label={`From top to bottom: ${heater} at ${temperatureText(platenC, temperatureUnit)}, ${look.layers.map((layer) => `${layer.name}, ${thicknessText(layer.thicknessMm, lengthUnit)}`).join('; ')}${bothSides ? '; heated from below too' : ''}. The dye goes over between the paper and ${look.layers.some((layer) => layer.id === 'coating') ? 'the coat' : 'the blank'}.`}
        >
          <defs>
            <pattern id={`${id}-heat`} width={8} height={8} patternUnits="userSpaceOnUse">
              <rect width={8} height={8} fill="var(--panel)" />
              <path d="M0 8L8 0" stroke="var(--dye)" strokeWidth={1.6} />
            </pattern>
            <pattern id={`${id}-cover`} width={6} height={6} patternUnits="userSpaceOnUse">
              <rect width={6} height={6} fill="var(--raised)" />
              <path d="M0 3H6" stroke="var(--line-strong)" strokeWidth={0.8} />
            </pattern>
            <pattern id={`${id}-blank`} width={9} height={9} patternUnits="userSpaceOnUse">
              <rect width={9} height={9} fill="var(--hover)" />
              <path d="M0 9L9 0" stroke="var(--line-strong)" strokeWidth={0.7} />
            </pattern>
            <pattern id={`${id}-pad`} width={8} height={8} patternUnits="userSpaceOnUse">
              <rect width={8} height={8} fill="var(--raised)" />
              <circle cx={2} cy={2} r={1} fill="var(--line-strong)" />
              <circle cx={6} cy={6} r={1} fill="var(--line-strong)" />
            </pattern>
          </defs>
          <rect x={1} y={8} width={drawn} height={34} fill={`url(#${id}-heat)`} className={styles.layer} />
          <text x={drawn + 12} y={24} className={styles.layerName}>
            {heater.charAt(0).toUpperCase() + heater.slice(1)}
          </text>
          <text x={drawn + 12} y={42} className={styles.layerMore}>
            {temperatureText(platenC, temperatureUnit)} true
          </text>
          {rows.map(({ layer, y: top, height: deep }) => (
            <g key={layer.id}>
              <rect
                x={1}
                y={top}
                width={drawn}
                height={deep}
                fill={fills[layer.id] ?? 'var(--raised)'}
                className={styles.layer}
              />
              <text x={drawn + 12} y={top + deep / 2 - 2} className={styles.layerName}>
                {layer.name}
              </text>
              <text x={drawn + 12} y={top + deep / 2 + 15} className={styles.layerMore}>
                {thicknessText(layer.thicknessMm, lengthUnit)}
                {basisWords[layer.basis] && `, ${basisWords[layer.basis]}`}
              </text>
            </g>
          ))}
          {dyeY !== null && <line x1={0} x2={drawn + 2} y1={dyeY} y2={dyeY} className={styles.dyeLine} />}
          {bothSides && (
            <>
              <rect
                x={1}
                y={bottom + 4}
                width={drawn}
                height={34}
                fill={`url(#${id}-heat)`}
                className={styles.layer}
              />
              <text x={drawn + 12} y={bottom + 26} className={styles.layerName}>
                Heated from below too
              </text>
            </>
          )}
        </svg>
      </div>
      <p className={styles.aside}>
        Thick line: where the dye goes over. Thin layers are drawn thicker than they are.
      </p>
    </figure>
  );
}

/** Where paper and what takes the dye touch; a piece may lie on its paper as well as under it. */
function dyeLevel(
  rows: readonly { readonly layer: Layer; readonly y: number; readonly height: number }[],
): number | null {
  const takes = (id: string | undefined) => id === 'coating' || id === 'blank';
  const at = rows.findIndex(
    ({ layer }, i) => layer.id === 'paper' && (takes(rows[i - 1]?.layer.id) || takes(rows[i + 1]?.layer.id)),
  );
  const paper = rows[at];
  if (!paper) return null;
  return takes(rows[at + 1]?.layer.id) ? paper.y + paper.height : paper.y;
}
