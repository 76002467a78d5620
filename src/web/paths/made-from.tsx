import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { ColourPath } from '#contract';
import { usePreferences } from '../frame/index.js';
import { dayText, pressureNames, signed, temperatureText, timeText } from '../words/index.js';
import styles from './made-from.module.css';

/** What the path rests on: the patches, and how they were printed and pressed then. */
export function MadeFrom({ path }: { readonly path: ColourPath }) {
  const { temperatureUnit } = usePreferences();
  const { measurement, belongsTo } = path;
  return (
    <section aria-labelledby="from-title" className={styles.section}>
      <h2 id="from-title">What it was made from</h2>
      <dl className={styles.facts}>
        <Fact name="Made on">{dayText(path.createdAt)}</Fact>
        {measurement ? (
          <>
            <Fact name={path.origin === 'by-eye' ? 'Picks' : 'Patches'}>
              {measurement.patches}
              {measurement.repeats > 0 && `, ${measurement.repeats} of them repeats`}
              {measurement.outliers.length > 0 && `; ${measurement.outliers.length} left out`}
            </Fact>
            {path.origin === 'measured' && (
              <Fact name="A single reading scatters by">
                {(['L*', 'a*', 'b*'] as const)
                  .map((name, i) => `${name} ${signed(measurement.noiseSdLab[i] ?? 0, 2)}`)
                  .join(', ')}
              </Fact>
            )}
            {measurement.adaptedFrom && <Fact name="Adapted from">{measurement.adaptedFrom}</Fact>}
            {measurement.readingIds.length > 0 && (
              <Fact name="Readings">
                {measurement.readingIds.map((id, i) => (
                  <span key={id}>
                    {i > 0 && ', '}
                    <Link to="/readings/$readingId" params={{ readingId: id }}>
                      {measurement.readingIds.length === 1 ? 'the reading' : `reading ${i + 1}`}
                    </Link>
                  </span>
                ))}
              </Fact>
            )}
          </>
        ) : (
          <Fact name="Brought in as">an ICC profile: {path.description}</Fact>
        )}
        <Fact name="Profile">
          ICC {path.iccVersion}, intents {path.intents.join(', ')}
        </Fact>
      </dl>
      {belongsTo ? (
        <>
          <h3>Printed and pressed then</h3>
          <dl className={styles.facts}>
            <Fact name="Print setup">
              {belongsTo.setup.name}: {belongsTo.setup.printer}
            </Fact>
            <Fact name="Ink">{belongsTo.setup.ink}</Fact>
            <Fact name="Paper">{belongsTo.setup.paper.name}</Fact>
            <Fact name="Driver">
              <ul className={styles.lines}>
                {belongsTo.setup.driverSettings.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
            </Fact>
            <Fact name="Blank">{belongsTo.blank.name}</Fact>
            <Fact name="Recipe">
              {temperatureText(belongsTo.blank.recipe.platenC, temperatureUnit)},{' '}
              {timeText(belongsTo.blank.recipe.dwellSeconds)},{' '}
              {pressureNames[belongsTo.blank.recipe.pressure].toLowerCase()} pressure
            </Fact>
          </dl>
        </>
      ) : (
        <p className="soft">
          Nobody said how it was printed and on what it was pressed, so changes since then cannot be seen.
        </p>
      )}
      {measurement && measurement.remarks.length > 0 && (
        <>
          <h3>Remarks</h3>
          <ul>
            {measurement.remarks.map((remark) => (
              <li key={remark}>{remark}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}
