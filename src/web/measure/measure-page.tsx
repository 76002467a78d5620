import { Button } from '@mantine/core';
import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate, useSearch } from '@tanstack/react-router';
import { useEffect } from 'react';
import { ProblemNote } from '../frame/index.js';
import { EarlierSheets } from './earlier-sheets.js';
import { HowItGoes } from './how-it-goes.js';
import styles from './measure.module.css';
import { PathsMeasured } from './paths-measured.js';
import { ReadAny } from './read-any.js';
import { ReadersSection } from './readers/readers-section.js';
import { standingSentence } from './round-state.js';
import { RoundsUnderWay } from './rounds-under-way.js';
import { StartFile } from './start/start-file.js';
import { StartRound } from './start/start-round.js';
import { useShopMeasured } from './use-shop-measured.js';

/** Where colour stands, what to do next, the rounds under way, the readers. */
export function MeasurePage() {
  useDocumentTitle('Measure · Dyewright');
  const { start, path: justLearnt } = useSearch({ from: '/measure' });
  const navigate = useNavigate({ from: '/measure' });
  const shop = useShopMeasured();

  // What was opened from a link or a button: the keyboard and the eye go there.
  useEffect(() => {
    if (!start) return;
    const title = document.getElementById('start-title');
    title?.focus({ preventScroll: true });
    title?.scrollIntoView({ block: 'start', behavior: 'smooth' });
  }, [start]);

  // The demo's round is there to be tried; it is not the person's own.
  const own = shop.underWay.filter((round) => !round.sheet.demo);
  const standing = shop.known
    ? standingSentence({
        paths: shop.paths.length,
        toLookAt: shop.toLookAt,
        unchecked: shop.unchecked,
        underWay: own.length,
      })
    : 'Looking it over…';
  return (
    <div className={styles.page}>
      <div className={styles.opening}>
        <h1>{standing}</h1>
        {shop.known && shop.paths.length === 0 && (
          <p className="soft">
            A colour path is what your printer, ink, paper and press really make of every colour.
          </p>
        )}
        <div className={styles.acts}>
          {start !== 'colour' && (
            <Button
              size="lg"
              onClick={() => void navigate({ search: { start: 'colour' }, resetScroll: false })}
            >
              Measure a colour path
            </Button>
          )}
          {!start && (
            <>
              <Link to="/measure" search={{ start: 'grey' }} resetScroll={false}>
                By eye, without a scanner
              </Link>
              <Link to="/measure" search={{ start: 'file' }} resetScroll={false}>
                From an instrument’s file
              </Link>
            </>
          )}
          {start && (
            <Link to="/measure" search={{}} resetScroll={false}>
              Not now
            </Link>
          )}
        </div>
        {!start && <ReadAny />}
      </div>
      {shop.error && <ProblemNote error={shop.error} />}
      {shop.known && !start && shop.paths.length === 0 && own.length === 0 && <HowItGoes />}
      {start === 'file' && <StartFile />}
      {start && start !== 'file' && <StartRound key={start} kind={start} />}
      <RoundsUnderWay rounds={shop.underWay} />
      <PathsMeasured
        paths={shop.paths}
        standings={shop.standings}
        justLearnt={start ? null : (justLearnt ?? null)}
      />
      <ReadersSection />
      <EarlierSheets rounds={shop.earlier} />
    </div>
  );
}
