import type { HeatLook } from '#contract';
import { usePreferences } from '../frame/index.js';
import { estimateText, secondsText, sizeK, temperatureText, toDegrees } from '../words/index.js';
import styles from './heat.module.css';

/** The figures behind the words, each with its unit and how far it can be trusted. */
export function HeatFacts({ look }: { readonly look: HeatLook }) {
  const { temperatureUnit: unit } = usePreferences();
  const { facts } = look;
  const peak = {
    value: toDegrees(facts.dyePeakC.value, unit),
    low: toDegrees(facts.dyePeakC.low, unit),
    high: toDegrees(facts.dyePeakC.high, unit),
  };
  const five = unit === 'C' ? '5 °C' : '9 °F';
  return (
    <dl className={styles.facts}>
      <Fact
        name="The dye’s place arrives"
        figure={facts.arrivesSeconds ? estimateText(facts.arrivesSeconds, 's') : 'not in the time looked at'}
        says={`within ${sizeK(10, unit)} of the platen, from closing the press`}
      />
      <Fact name="Its hottest" figure={estimateText(peak, `°${unit}`)} />
      <Fact
        name="Dose"
        figure={estimateText(facts.doseSeconds, 's')}
        says={`as many seconds at ${temperatureText(200, unit)} would give`}
      />
      <Fact
        name={`${five} too cool`}
        figure={
          facts.fiveCoolerSeconds === null
            ? 'more than twice the time'
            : `${secondsText(Math.abs(facts.fiveCoolerSeconds))} ${facts.fiveCoolerSeconds < 0 ? 'less' : 'more'}`
        }
        says="for the same dose"
      />
      <Fact
        name={`${five} too hot`}
        figure={
          facts.fiveHotterSeconds === null
            ? 'cannot be told'
            : `${secondsText(Math.abs(facts.fiveHotterSeconds))} less`
        }
        says="for the same dose"
      />
      <Fact
        name="May be touched"
        figure={
          facts.touchableAfterSeconds === null
            ? 'not within two hours'
            : `after ${secondsText(facts.touchableAfterSeconds)}`
        }
        says={`in still air, below ${temperatureText(facts.touchC, unit)}; with heat gloves before that`}
      />
      <Fact name="Energy" figure={`${Number(facts.pieceWh.toPrecision(2))} Wh`} says="for one piece" />
      <Fact
        name="The heat sinks by"
        figure={sizeK(facts.platenSagK, unit)}
        says="on the cold piece, then recovers"
      />
      {facts.dryingSeconds && (
        <Fact
          name="Pre-press to dry"
          figure={estimateText(facts.dryingSeconds, 's')}
          says="for the moisture of usual cloth"
        />
      )}
    </dl>
  );
}

function Fact({
  name,
  figure,
  says,
}: {
  readonly name: string;
  readonly figure: string;
  readonly says?: string;
}) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {figure}
        {says && <span>{says}</span>}
      </dd>
    </div>
  );
}
