import type { LinearRgb } from '#craft/patchreading';
import { p95OverMean } from './expected.js';
import { learnFrom, mapFrom } from './fit-reader-map.js';
import type { ReaderMap, ReaderSample } from './types.js';

/** Few patches in one photo decide few terms. */
const methods = ['matrix', 'root-2', 'cube-root-1', 'cube-root-2'] as const;
const fewestColours = 8;

/**
 * Direct use of a phone's colours errs by more than 10 ΔE00, a reference card in the picture halves it (published; see
 * docs/decisions/0009). A card is of other colourants, lies elsewhere in the light and has few patches: what its own
 * left-out patches say is only part of the error, and never less than this comes out in sum.
 */
const publishedCardDeltaE00 = 5;

/** Grounds worth printing on lie between: common practice. */
const darkestGroundL = 80;
const lightestGroundL = 98;

/**
 * Grade C: learnt from a card that lies in the same photo.
 * @param chartGround the bare ground of the test sheet: where the card lies in other light it comes out lighter than
 * white or too dark, and all light is brought back in proportion
 * @throws Problem `chart.unusable`
 */
export function cardReaderMap(samples: readonly ReaderSample[], chartGround: LinearRgb): ReaderMap {
  const found = learnFrom(samples, methods, fewestColours, 1);
  const remarks = [...found.remarks];
  const groundL = (gain: number): number =>
    found.learnt.fitted.at([gain * chartGround[0], gain * chartGround[1], gain * chartGround[2]]).lab[0];
  const seen = groundL(1);
  const wanted = Math.min(lightestGroundL, Math.max(darkestGroundL, seen));
  let gain = 1;
  if (wanted !== seen) {
    gain = gainFor(groundL, wanted);
    remarks.unshift(
      seen > wanted
        ? 'The sheet lay in more light than the card: its colours were darkened so that its ground is no lighter than white.'
        : 'The sheet lay in less light than the card: its colours were lightened so that its ground is white.',
    );
  }
  const own = found.learnt.meanDeltaE00;
  const beyond = Math.sqrt(Math.max(0, publishedCardDeltaE00 ** 2 - own ** 2));
  const map = mapFrom(found, {
    grade: 'C',
    beyond: { mean: beyond, p95: p95OverMean * beyond },
    gain,
    remarks,
  });
  if (beyond === 0) return map;
  const expectedError = { ...map.expectedError, restsOn: 'published' } as const;
  return { ...map, expectedError, data: { ...map.data, expectedError } };
}

/** By halving the interval; lightness rises with light, if not strictly so everywhere. */
function gainFor(groundL: (gain: number) => number, wanted: number): number {
  let low = 0.2;
  let high = 5;
  for (let step = 0; step < 40; step += 1) {
    const middle = Math.sqrt(low * high);
    if (groundL(middle) < wanted) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}
