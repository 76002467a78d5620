import { Button, NumberInput, SegmentedControl } from '@mantine/core';
import { useMemo } from 'react';
import type { Artwork, Blank } from '#contract';
import { developBlank } from '#craft/blank';
import { effectivePpi } from '#craft/sheet';
import { LengthField, usePreferences } from '../frame/index.js';
import { lengthText } from '../words/index.js';
import { pictureUrl } from './picture-url.js';
import { Stage } from './placing/stage.js';
import { usePlacing } from './placing/use-placing.js';
import styles from './placing-section.module.css';
import type { SheetSearch } from './search.js';

const modes = {
  fill: 'Covers the face and its bleed; what hangs over is cut off.',
  fit: 'All of it is seen, inside the face.',
  free: 'Any size, any place.',
} as const;

/** Where the artwork lies on the face: by hand, or exactly. */
export function PlacingSection(props: {
  readonly artwork: Artwork;
  readonly blank: Blank;
  readonly search: SheetSearch;
  onChange(change: Partial<SheetSearch>): void;
}) {
  const { artwork, blank, search, onChange } = props;
  const { lengthUnit } = usePreferences();
  const outline = useMemo(() => developBlank(blank.shape), [blank.shape]);
  const bleedMm = search.bleedMm ?? blank.bleedMm;
  const placing = usePlacing(outline, artwork, bleedMm, search.placement, (placement) =>
    onChange({ placement }),
  );
  const { placed, placement } = placing;
  const ppi = effectivePpi(artwork, placed);
  return (
    <section aria-labelledby="placing-title" className={styles.section} onBlur={placing.settle}>
      <h2 id="placing-title">Place it</h2>
      <div className={styles.columns}>
        <div>
          <Stage
            outline={outline}
            bleedMm={bleedMm}
            safeMm={blank.safeMm}
            handle={blank.shape.kind === 'cylinder' && blank.shape.handle}
            pictureUrl={pictureUrl(artwork.id, 1200)}
            placing={placing}
          />
          <ul className={styles.key} aria-label="Lines">
            <li>
              <i data-line="edge" />
              edge of the face
            </li>
            {bleedMm > 0 && (
              <li>
                <i data-line="bleed" />
                bleed, printed {lengthText(bleedMm, lengthUnit)} past the edge
              </li>
            )}
            {blank.safeMm > 0 && (
              <li>
                <i data-line="safe" />
                keep lettering and faces inside
              </li>
            )}
          </ul>
        </div>
        <div className={styles.figures}>
          <div>
            <SegmentedControl
              fullWidth
              size="md"
              aria-label="How it is laid"
              value={placement.mode}
              onChange={(mode) => placing.setMode(mode as typeof placement.mode)}
              data={[
                { value: 'fill', label: 'Fill' },
                { value: 'fit', label: 'Fit' },
                { value: 'free', label: 'Free' },
              ]}
            />
            <p className={styles.hint}>{modes[placement.mode]}</p>
          </div>
          <div className={styles.pairs}>
            <LengthField
              label="Width"
              valueMm={placed.widthMm}
              onChange={placing.setWidthMm}
              minMm={1}
              maxMm={6000}
            />
            <LengthField
              label="Height"
              valueMm={placed.heightMm}
              onChange={(heightMm) => placing.setWidthMm((heightMm * placed.widthMm) / placed.heightMm)}
              minMm={1}
              maxMm={6000}
            />
            <LengthField
              label="Right of middle"
              valueMm={placed.centreXMm}
              onChange={(x) => placing.moveTo(x, placed.centreYMm)}
            />
            <LengthField
              label="Below middle"
              valueMm={placed.centreYMm}
              onChange={(y) => placing.moveTo(placed.centreXMm, y)}
            />
            <NumberInput
              size="md"
              label="Turned"
              aria-label="Turned, degrees clockwise"
              value={Number(placed.rotationDegrees.toFixed(1))}
              onChange={(value) => {
                if (typeof value === 'number' && value !== Number(placed.rotationDegrees.toFixed(1)))
                  placing.turnTo(value);
              }}
              decimalScale={1}
              min={-360}
              max={360}
              suffix="°"
            />
            <LengthField
              label="Bleed"
              valueMm={bleedMm}
              onChange={(value) => onChange({ bleedMm: Math.min(50, Math.max(0, value)) })}
              minMm={0}
              maxMm={50}
              stepMm={0.5}
            />
          </div>
          <div className={styles.moves}>
            <Button variant="default" size="sm" px="sm" onClick={placing.centre}>
              Centre
            </Button>
            <Button
              variant="default"
              size="sm"
              px="sm"
              onClick={() => placing.turnTo(placed.rotationDegrees + 90)}
            >
              Quarter turn
            </Button>
            <Button variant="default" size="sm" px="sm" onClick={placing.startOver}>
              Start over
            </Button>
          </div>
          <p className={styles.hint}>
            The artwork has <strong className="figures">{Math.round(ppi)} pixels per inch</strong> at this
            size.
          </p>
          <NumberInput
            size="md"
            label="Copies on the sheet"
            value={search.copies ?? 1}
            onChange={(value) => {
              if (typeof value === 'number' && Number.isInteger(value) && value >= 1 && value <= 500)
                onChange({ copies: value });
            }}
            min={1}
            max={500}
            allowDecimal={false}
          />
        </div>
      </div>
    </section>
  );
}
