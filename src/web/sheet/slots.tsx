import type { ReactNode } from 'react';
import type { Artwork, Blank, PrintSetup } from '#contract';
import { useColourPaths } from '../api/index.js';
import { BlankDrawing, usePreferences } from '../frame/index.js';
import { blankSizeText, sizeText, trustText } from '../words/index.js';
import { pictureUrl } from './picture-url.js';
import styles from './slots.module.css';

export type SlotName = 'artwork' | 'blank' | 'setup';
interface SlotProps {
  readonly open: boolean;
  onToggle(): void;
}

export const slotId = (slot: SlotName): string => `slot-${slot}`;

/** One of the three things a sheet is made from: what it is now, and a press to change it. */
function Slot(
  props: SlotProps & {
    readonly slot: SlotName;
    readonly lead: string;
    readonly picture: ReactNode;
    readonly name: string;
    readonly facts: readonly string[];
    readonly empty?: boolean;
  },
) {
  return (
    <button
      type="button"
      id={slotId(props.slot)}
      className={styles.slot}
      data-open={props.open || undefined}
      data-empty={props.empty || undefined}
      aria-expanded={props.open}
      aria-controls={props.open ? 'chooser' : undefined}
      onClick={props.onToggle}
    >
      <span className={styles.picture}>{props.picture}</span>
      <span className={styles.words}>
        <span className={styles.lead}>{props.lead}</span>
        <span className={styles.name}>{props.name}</span>
        {props.facts.map((fact) => (
          <span key={fact} className={styles.fact}>
            {fact}
          </span>
        ))}
      </span>
    </button>
  );
}

/** What artwork without a profile is taken for; its remarks say more. */
const takenAs: Record<Artwork['colourModel'], string> = {
  rgb: 'untagged, taken as sRGB',
  grey: 'untagged, taken as sRGB greys',
  cmyk: 'untagged, taken as a generic CMYK',
};

export function ArtworkSlot({ artwork, ...slot }: SlotProps & { readonly artwork: Artwork | null }) {
  if (!artwork)
    return (
      <Slot
        {...slot}
        slot="artwork"
        empty
        lead="Press"
        name="your artwork"
        facts={['PNG, JPEG, TIFF, WebP, SVG']}
        picture={<Faint of="artwork" />}
      />
    );
  return (
    <Slot
      {...slot}
      slot="artwork"
      lead="Press"
      name={artwork.fileName}
      facts={[
        `${artwork.widthPixels} × ${artwork.heightPixels} pixels`,
        artwork.profileName ?? takenAs[artwork.colourModel],
      ]}
      picture={<img src={pictureUrl(artwork.id, 320)} alt="" className={styles.art} />}
    />
  );
}

export function BlankSlot({ blank, ...slot }: SlotProps & { readonly blank: Blank | null }) {
  const { lengthUnit } = usePreferences();
  if (!blank)
    return (
      <Slot
        {...slot}
        slot="blank"
        empty
        lead="on"
        name="a blank"
        facts={['mug, tile, slate, shirt…']}
        picture={<Faint of="blank" />}
      />
    );
  return (
    <Slot
      {...slot}
      slot="blank"
      lead="on"
      name={blank.name}
      facts={[blankSizeText(blank.shape, lengthUnit), `print on: ${blank.coating.side}`]}
      picture={
        <span className={styles.drawing}>
          <BlankDrawing blank={blank} width={92} />
        </span>
      }
    />
  );
}

export function SetupSlot({ setup, ...slot }: SlotProps & { readonly setup: PrintSetup | null }) {
  const { lengthUnit } = usePreferences();
  const paths = useColourPaths();
  const path = paths.data?.find((one) => one.id === setup?.colourPathId);
  const trust = path
    ? `Colour: ${trustText(path)}`
    : setup?.colourPathId
      ? 'Colour path known'
      : 'Colour not calibrated';
  if (!setup)
    return (
      <Slot
        {...slot}
        slot="setup"
        empty
        lead="printed with"
        name="a print setup"
        facts={['printer, ink and paper']}
        picture={<Faint of="setup" />}
      />
    );
  const { paper } = setup;
  return (
    <Slot
      {...slot}
      slot="setup"
      lead="printed with"
      name={setup.name}
      facts={[
        paper.roll
          ? `${paper.name}, roll`
          : `${paper.name}, ${sizeText(paper.widthMm, paper.heightMm, lengthUnit)}`,
        trust,
      ]}
      picture={
        <span className={styles.drawing}>
          <PaperDrawing paper={setup.paper} />
        </span>
      }
    />
  );
}

/** What will stand in the place while nothing does yet. */
function Faint({ of }: { readonly of: SlotName }) {
  return (
    <span className={styles.faint}>
      {of === 'artwork' && (
        <svg
          viewBox="0 0 96 80"
          width={92}
          height={77}
          aria-hidden="true"
          fill="none"
          stroke="currentColor"
          strokeWidth={1.5}
          strokeLinejoin="round"
        >
          <rect x={18} y={14} width={60} height={50} rx={2} />
          <path d="M18 56 l18 -19 13 12 9 -8 20 17" />
          <circle cx={61} cy={27} r={5} />
        </svg>
      )}
      {of === 'blank' && (
        <BlankDrawing
          blank={{
            name: '',
            material: 'ceramic',
            shape: { kind: 'cylinder', diameterMm: 82, heightMm: 95, gapMm: 20, handle: true },
          }}
          width={92}
        />
      )}
      {of === 'setup' && <PaperDrawing paper={{ widthMm: 210, heightMm: 297 }} />}
    </span>
  );
}

/** The sheet of paper, in its proportions, with a lifted corner. */
export function PaperDrawing({
  paper,
}: {
  readonly paper: Pick<PrintSetup['paper'], 'widthMm' | 'heightMm' | 'roll'>;
}) {
  const height = paper.roll ? paper.widthMm * 1.3 : paper.heightMm;
  const fit = Math.min(60 / paper.widthMm, 62 / height);
  const w = paper.widthMm * fit;
  const h = height * fit;
  const x = 48 - w / 2;
  const y = 40 - h / 2;
  const c = 9;
  return (
    <svg
      viewBox="0 0 96 80"
      width={92}
      height={77}
      aria-hidden="true"
      focusable="false"
      fill="var(--raised)"
      stroke="currentColor"
      strokeWidth={1.5}
      strokeLinejoin="round"
    >
      {paper.roll && <ellipse cx={48} cy={y} rx={w / 2 + 4} ry={6} />}
      <path d={`M${x} ${y} H${x + w} V${y + h - c} L${x + w - c} ${y + h} H${x} Z`} />
      <path d={`M${x + w} ${y + h - c} H${x + w - c} V${y + h}`} />
    </svg>
  );
}
