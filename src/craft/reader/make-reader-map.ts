import type { Triple3 } from '#craft/colour';
import { Problem } from '#craft/problem';
import { distance, encodeLight } from './encode-light.js';
import { sameColours } from './groups.js';
import { type Fitted, fitMethod } from './methods.js';
import { isReaderMapData } from './read-map-data.js';
import { tagFunction } from './tag-function.js';
import type { LearntMapData, ReadColour, ReaderMap, ReaderMapData } from './types.js';

/**
 * The same map again from its data, to the same numbers.
 * @throws Problem `chart.unusable` for anything that is not whole
 */
export function makeReaderMap(data: ReaderMapData): ReaderMap {
  if (!isReaderMapData(data)) throw damaged();
  if (data.how.kind === 'tag') return { ...outside(data), toLab: tagFunction(data.how) };
  const { rgb, lab, weight, method, ridge, process } = data.how;
  const fitted = fitMethod(method, { rgb, lab, weight, groups: sameColours(rgb, lab) }, ridge, process);
  if (fitted === null) throw damaged();
  return assembleMap(data, data.how, fitted);
}

/** From data and the fit that belongs to it. */
export function assembleMap(data: ReaderMapData, how: LearntMapData, fitted: Fitted): ReaderMap {
  const light = how.rgb.map(encodeLight);
  return {
    ...outside(data),
    toLab: (colours) =>
      colours.map((raw): ReadColour => {
        const rgb = [how.gain * raw[0], how.gain * raw[1], how.gain * raw[2]] as const;
        const said = fitted.at(rgb);
        const place = encodeLight(rgb);
        const nearest = light.reduce((least, one) => Math.min(least, distance(one, place)), 9);
        const sdLab = said.variance.map((v, j) =>
          Math.hypot(how.widening[j]! * Math.sqrt(v), how.beyondSd),
        ) as Triple3;
        return { lab: said.lab, sdLab, known: nearest <= how.reach };
      }),
  };
}

const outside = (data: ReaderMapData): Omit<ReaderMap, 'toLab'> => ({
  data,
  expectedError: data.expectedError,
  remarks: data.remarks,
});

const damaged = (): Problem =>
  new Problem('chart.unusable', 'The kept calibration of the reader is damaged or of another kind.', {
    remedy: 'Calibrate the reader again.',
  });
