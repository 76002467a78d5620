import { SegmentedControl, Switch } from '@mantine/core';
import { lazy, Suspense, useMemo, useState } from 'react';
import type { ColourPath, PathLook } from '#contract';
import { percentText, signed } from '../../words/index.js';
import styles from './gamut.module.css';
import { LightnessSlice } from './lightness-slice.js';
import { reachByHue, reachSentence } from './reach-by-hue.js';
import { ReachTable } from './reach-table.js';

/** Loaded only here: three.js is the largest part of the page. */
const GamutView = lazy(() => import('./gamut-view.js'));

/** What the path reaches: a body to turn, a slice to lay flat, a table to read. */
export function GamutSection({ path, look }: { readonly path: ColourPath; readonly look: PathLook }) {
  const [how, setHow] = useState<'body' | 'slice'>('body');
  const [drawable, setDrawable] = useState(true);
  const [compared, setCompared] = useState(true);
  const [lightness, setLightness] = useState(60);
  const rows = useMemo(() => reachByHue(look.gamut, look.srgbGamut), [look]);
  const ends = [...look.neutrals].sort((one, two) => one.wantedL - two.wantedL);
  const white = path.measurement?.gamut.whiteLab ?? ends.at(-1)?.lab ?? [100, 0, 0];
  const black = path.measurement?.gamut.blackLab ?? ends[0]?.lab;
  const asBody = how === 'body' && drawable;
  return (
    <section aria-labelledby="reach-title" className={styles.section}>
      <h2 id="reach-title">What it reaches</h2>
      <p>
        {path.measurement &&
          `${percentText(path.measurement.gamut.srgbShare)} of a usual screen’s colours (sRGB). `}
        {reachSentence(rows)} White comes out at L* {signed(white[0], 0)}
        {black && `, the darkest colour at L* ${signed(black[0], 0)}`}.
      </p>
      {path.origin === 'by-eye' && (
        <p>
          <b>Assumed, not measured:</b> by eye only greys and contrast were judged. How strong the colours
          really come out, a scan or an instrument would tell.
        </p>
      )}
      <div className={styles.controls}>
        {drawable && (
          <SegmentedControl
            aria-label="How the colours are shown"
            value={how}
            onChange={(value) => setHow(value as typeof how)}
            data={[
              { value: 'body', label: 'As a body' },
              { value: 'slice', label: 'In slices' },
            ]}
          />
        )}
        <Switch
          size="md"
          label={asBody ? 'sRGB as a pale wire' : 'sRGB as a dotted line'}
          checked={compared}
          onChange={(event) => setCompared(event.currentTarget.checked)}
        />
      </div>
      {!drawable && (
        <p className="soft">This browser does not draw in three dimensions, so here are slices.</p>
      )}
      {asBody ? (
        <div className={styles.stage}>
          <Suspense fallback={<p className={styles.wait}>Fetching the drawing…</p>}>
            <GamutView
              body={look.gamut}
              screen={look.srgbGamut}
              compared={compared}
              onUnavailable={() => setDrawable(false)}
            />
          </Suspense>
        </div>
      ) : (
        <LightnessSlice
          body={look.gamut}
          screen={look.srgbGamut}
          compared={compared}
          whiteLab={white}
          lightness={lightness}
          onLightness={setLightness}
        />
      )}
      <p className="soft">
        Lightness stands up, hues run round, and colours are stronger further from the middle (CIELAB, D50).
        Each place has its own colour, as far as this screen can show it.
      </p>
      <details>
        <summary>The same as a table, hue by hue</summary>
        <ReachTable rows={rows} />
      </details>
    </section>
  );
}
