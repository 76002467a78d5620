import type { Ladder } from '#contract';
import { gasConstant } from '#craft/heat';
import { Told, usePreferences } from '../../frame/index.js';
import { estimateText, percentText, secondsRangeText, sizeK, temperatureText } from '../../words/index.js';
import { barText } from '../words.js';
import styles from './window.module.css';

/** Share of the time saved by 5 K more at an equal dose: Arrhenius' factor. */
const lessTime = (kJPerMol: number, platenC: number): number => {
  const kelvin = platenC + 273.15;
  return 1 - Math.exp(((-1000 * kJPerMol) / gasConstant) * (1 / kelvin - 1 / (kelvin + 5)));
};

/** The window in figures, each with what bounds it. */
export function WindowFacts({ ladder }: { readonly ladder: Ladder }) {
  const { temperatureUnit } = usePreferences();
  const { window, plan } = ladder;
  if (!window) return null;
  const { recipe } = window;
  const { tolerance } = recipe;
  return (
    <>
      <dl className={styles.facts}>
        <div>
          <dt>Surely bears</dt>
          <dd>
            {Math.floor(tolerance.shorterSeconds)} s less, {Math.floor(tolerance.longerSeconds)} s more
            <span className="soft">
              or {sizeK(Math.floor(tolerance.coolerK), temperatureUnit)} cooler,{' '}
              {sizeK(Math.floor(tolerance.hotterK), temperatureUnit)} hotter; not both at once
            </span>
          </dd>
        </div>
        <div>
          <dt>All is well from</dt>
          <dd>
            {secondsRangeText(window.fromSeconds)}
            <span className="soft">before it: {window.opens}</span>
          </dd>
        </div>
        <div>
          <dt>to</dt>
          <dd>
            {secondsRangeText(window.toSeconds)}
            <span className="soft">after it: {window.closes}</span>
          </dd>
        </div>
        <div>
          <dt>This recipe lies within it</dt>
          <dd>in {percentText(recipe.probabilityWithin)} of likely worlds</dd>
        </div>
        <div>
          <dt>{sizeK(5, temperatureUnit)} hotter</dt>
          <dd>
            asks {percentText(lessTime(window.activation.kJPerMol.value, recipe.platenC))} less time
            <span className="soft">
              activation energy {estimateText(window.activation.kJPerMol, 'kJ/mol')}.{' '}
              <Told text={window.activation.basis} />
            </span>
          </dd>
        </div>
        <div>
          <dt>On the press</dt>
          <dd>
            {plan.pressName ?? 'No press named'}
            <span className="soft">
              {plan.offsetK === null
                ? 'never measured: its display is taken as true'
                : `set ${temperatureText(recipe.setC, temperatureUnit)} for true ${temperatureText(recipe.platenC, temperatureUnit)}`}
              {recipe.pressureBar === null ? '' : `; ${barText(recipe.pressureBar)} on the blank`}
            </span>
          </dd>
        </div>
      </dl>
      <p className={styles.aside}>
        Figures in brackets hold nine of ten likely worlds. All is well where density is within 5 % of its
        top, black is neutral and edges are crisp, as far as each was read.
      </p>
    </>
  );
}
