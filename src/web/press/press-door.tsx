import { Link } from '@tanstack/react-router';
import type { Press } from '#contract';
import { usePlatenChecks } from '../api/index.js';
import { usePreferences } from '../frame/index.js';
import { dayText, differenceK, sizeK, sizeText } from '../words/index.js';
import styles from './press.module.css';

const kinds: Record<Press['kind'], string> = { flat: 'flat press', mug: 'mug press', oven: 'oven' };

/** One press: how far its display is off, as far as anybody measured. */
export function PressDoor({ press }: { readonly press: Press }) {
  const checks = usePlatenChecks(press.id);
  const { lengthUnit, temperatureUnit } = usePreferences();
  const last = checks.data?.[0];
  return (
    <li>
      <div>
        <h3>{press.name}</h3>
        <p className={styles.soft}>
          {kinds[press.kind]}, {platenSize(press, lengthUnit)}
          {press.demo && ' · demo'}
        </p>
      </div>
      <p className={styles.pressSays}>
        {last
          ? `${Math.abs(last.offsetK.value) < 0.5 ? 'As hot as it says' : `${differenceK(last.offsetK.value, temperatureUnit)} against its display`}, ${sizeK(last.spreadK, temperatureUnit)} from place to place; measured ${dayText(last.createdAt)}.`
          : checks.data
            ? 'Never measured: its display is taken as true.'
            : ''}
      </p>
      <Link to="/press/platen/$pressId" params={{ pressId: press.id }}>
        {last ? `Its platen` : `Measure its platen`}
        <span className="said-only"> ({press.name})</span>
      </Link>
    </li>
  );
}

/** A platen's size as its maker would say it: thousandths of an inch say nothing here. */
function platenSize({ platenWidthMm, platenDepthMm }: Press, unit: 'mm' | 'in'): string {
  const tenthInch = 2.54;
  const coarse = (mm: number): number => (unit === 'mm' ? mm : Math.round(mm / tenthInch) * tenthInch);
  return sizeText(coarse(platenWidthMm), coarse(platenDepthMm), unit);
}
