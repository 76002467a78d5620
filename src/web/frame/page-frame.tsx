import { useMantineColorScheme } from '@mantine/core';
import { Link, Outlet, useLocation } from '@tanstack/react-router';
import { useEffect } from 'react';
import { useShop } from '../api/index.js';
import { Mark } from './mark.js';
import styles from './page-frame.module.css';
import { usePreferences } from './preferences.js';
import { ProblemNote } from './problem-note.js';
import { Told } from './told.js';
import { UnitsAndLight } from './units-and-light.js';

const places = [
  { to: '/', name: 'Sheet' },
  // Paths and readings come of measuring: from there one goes back to it.
  { to: '/measure', name: 'Measure', holds: /^\/(paths|readings)\// },
  { to: '/press', name: 'Press' },
  { to: '/read-back', name: 'Read back' },
  { to: '/setups', name: 'Setups' },
] as const;

/** What stays the same in every place: name, places, units and light. */
export function PageFrame() {
  const shop = useShop();
  const { pathname } = useLocation();
  const { theme } = usePreferences();
  const { setColorScheme } = useMantineColorScheme();
  const known = shop.data !== undefined;
  useEffect(() => {
    if (known) setColorScheme(theme);
  }, [known, theme, setColorScheme]);
  return (
    <div className={styles.page}>
      <a className={styles.skip} href="#main">
        Go to the work
      </a>
      <header className={styles.head}>
        <div className={styles.name}>
          <Mark />
          <span>Dyewright</span>
          {shop.data?.demo && <span className={styles.demo}>demo shop</span>}
        </div>
        <nav aria-label="Places" className={styles.places}>
          {places.map((place) => (
            <Link
              key={place.to}
              to={place.to}
              activeOptions={{ exact: place.to === '/', includeSearch: false }}
              data-within={'holds' in place && place.holds.test(pathname) ? true : undefined}
            >
              {place.name}
            </Link>
          ))}
        </nav>
        <div className={styles.headUnits}>
          <UnitsAndLight />
        </div>
      </header>
      <main id="main" className={styles.main} tabIndex={-1}>
        {shop.error && <ProblemNote error={shop.error} onAgain={() => void shop.refetch()} />}
        <Outlet />
      </main>
      <footer className={styles.foot}>
        <div className={styles.footUnits}>
          <UnitsAndLight />
        </div>
        <p>
          {shop.data?.demo &&
            'The demo records, Saltmarsh Rowing Club’s regatta and all in it, are invented. '}
          <Told text="Presses run near 200 °C: gloves, fresh air, and the blank maker’s instructions before ours." />
        </p>
        {shop.data && <p>Dyewright {shop.data.version}. Everything stays on this machine.</p>}
      </footer>
    </div>
  );
}
