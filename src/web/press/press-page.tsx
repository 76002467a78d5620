import { Button } from '@mantine/core';
import { useDocumentTitle } from '@mantine/hooks';
import { Link } from '@tanstack/react-router';
import { useLadders } from '../api/index.js';
import { ProblemNote } from '../frame/index.js';
import { HowLadderGoes } from './how-ladder-goes.js';
import { LadderList } from './ladder-list.js';
import { pressStanding } from './ladder-state.js';
import { OtherDoors } from './other-doors.js';
import styles from './press.module.css';
import { ReadCoupons } from './read-coupons.js';
import { saidOfLadder } from './said-of-ladder.js';

/** Where the settings of the presses stand, the ladders, and the ways to the platen, evenness, heat and one black. */
export function PressPage() {
  useDocumentTitle('Press · Dyewright');
  const ladders = useLadders();
  const newestFirst = [...(ladders.data ?? [])].sort((one, two) =>
    two.updatedAt.localeCompare(one.updatedAt),
  );
  return (
    <div className={styles.page}>
      <div className={styles.opening}>
        <h1>{ladders.data ? pressStanding(newestFirst, saidOfLadder) : 'Looking it over…'}</h1>
        <p className="soft">
          Temperature, time and pressure decide whether the dye arrives. A ladder of coupons measures them for
          your blank on your press.
        </p>
        <div className={styles.acts}>
          <Button size="lg" renderRoot={(props) => <Link {...props} to="/press/ladder/new" />}>
            Plan a ladder
          </Button>
          <Link to="/press/black">One black: too little or too much?</Link>
        </div>
        <ReadCoupons />
      </div>
      {ladders.error && <ProblemNote error={ladders.error} onAgain={() => void ladders.refetch()} />}
      {ladders.data && newestFirst.filter((ladder) => !ladder.demo).length === 0 && <HowLadderGoes />}
      <LadderList ladders={newestFirst} />
      <OtherDoors />
    </div>
  );
}
