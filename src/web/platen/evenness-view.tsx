import { SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import type { EvennessReadingFacts } from '#contract';
import { usePresses } from '../api/index.js';
import { dayText, deltaText, differenceBasis, differenceWords, gradeText, signed } from '../words/index.js';
import styles from './evenness.module.css';
import { FindingList } from './finding-marks.js';
import { filledIn, spanOf } from './grid.js';
import { PlatenMap } from './platen-map.js';
import { sideNames } from './sides.js';

type View = 'colour' | 'pattern' | 'dye';

/** What one scan of an evenness sheet tells, as the piece lay under the press. */
export function EvennessView({ reading }: { readonly reading: EvennessReadingFacts }) {
  const [view, setView] = useState<View>('colour');
  const { map, findings } = reading;
  const kind = usePresses().data?.find((press) => press.id === reading.pressId)?.kind;
  const size = { columns: map.columns, rows: map.rows };
  const grid = {
    colour: { ...size, values: map.deltaE00 },
    pattern: { ...size, values: map.smooth },
    dye: { ...size, values: map.densityLess },
  }[view];
  // Both maps of colour on one scale, so that they can be held against one another; 3 ΔE00 is seen by nearly everyone.
  const span =
    view === 'dye' ? spanOf(map.densityLess, 0.1, true) : spanOf([...map.deltaE00, ...map.smooth], 3, true);
  // What was found stands below with its letter.
  const more = reading.sentences.slice(1).filter((one) => findings.every((found) => found.words !== one));
  const words = findings.map((one) => one.words).join(' ');
  return (
    <div className={styles.view}>
      <div className={styles.picture}>
        <SegmentedControl
          size="sm"
          aria-label="What the map shows"
          value={view}
          onChange={(value) => setView(value as View)}
          data={[
            { value: 'colour', label: 'As read' },
            { value: 'pattern', label: 'Chance taken out' },
            { value: 'dye', label: 'Density' },
          ]}
        />
        <PlatenMap
          grid={filledIn(grid)}
          span={span}
          scale="difference"
          smooth={view === 'pattern'}
          figures={{ columns: 5, rows: 5 }}
          figureText={(value) => signed(value, view === 'dye' ? 2 : 1)}
          sides={sideNames(kind)}
          widthMm={map.columns * map.pitchMm}
          depthMm={map.rows * map.pitchMm}
          findings={findings}
          best={reading.best}
          legend={
            view === 'dye'
              ? { title: 'Density less that of the best region', low: 'as dark', high: 'paler' }
              : { title: 'Difference from the best region, ΔE00', low: 'alike', high: 'far off' }
          }
          label={`The sheet as it lay under the press, ${sideNames(kind).ends[0]} at the top: on average ${deltaText(reading.meanDeltaE00)} from the best region. ${words}`}
        />
      </div>
      <div className={styles.told}>
        {more.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {reading.since && (
          <p>
            <strong>Since the last time:</strong> {reading.since.words}
          </p>
        )}
        <FindingList findings={findings} />
        <dl className={styles.facts}>
          <div>
            <dt>On average</dt>
            <dd>
              {deltaText(reading.meanDeltaE00)} from the best region: {differenceWords(reading.meanDeltaE00)}
            </dd>
          </div>
          <div>
            <dt>95 % of places within</dt>
            <dd>{deltaText(reading.p95DeltaE00)}</dd>
          </div>
          <div>
            <dt>Read</dt>
            <dd>
              {dayText(reading.createdAt)}, from {reading.fileName}
              {reading.readerName ? `, ${reading.readerName}` : ''}; grade {gradeText(reading.grade)}
            </dd>
          </div>
        </dl>
        <p className={styles.aside}>{differenceBasis}</p>
      </div>
    </div>
  );
}
