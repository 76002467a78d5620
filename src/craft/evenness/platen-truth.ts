import { Problem } from '#craft/problem';
import { kelvin } from './found-words.js';
import { trueReadings } from './instruments.js';
import { splitUnevenness } from './split-unevenness.js';
import { smoothedRemainder } from './temperature-map.js';
import type { Estimate, Place, PlaceValue, PlatenReadings, PlatenTruth } from './types.js';
import { atPlace } from './where.js';

/** Fields of the map along the longer side. */
const mapCells = 16;
/** How far a place of a usual platen is from its mean, K: what few readings leave unknown (common practice). */
const usualUnevennessK = 2;
/** Above this no platen of the shop may be run. */
const safetyBoundC = 230;
const nineInTen = 1.645;

/**
 * What a platen's temperatures truly are, from readings on a grid: how far it is from what was set, a map, and what
 * unevenness is beyond chance. The instrument's own doubt is one for all readings: it widens the offset, not the map.
 *
 * Readings lie in the middles of the fields of the grid: of 3 × 3, a sixth, a half and five sixths across.
 *
 * @throws Problem `press.invalid` when readings are missing, implausible, or of bare metal from afar
 */
export function platenTruth(
  readings: PlatenReadings,
  platen: { readonly widthMm: number; readonly depthMm: number },
): PlatenTruth {
  const { columns, rows, setC } = readings;
  if (!(platen.widthMm > 0 && platen.depthMm > 0 && Number.isFinite(setC))) {
    throw new Problem('press.invalid', 'The platen’s size or the temperature set is missing.', {
      remedy: 'Give the size of the heated face in millimetres and what the press was set to.',
    });
  }
  const { celsius, sharedSdK, ownSdK, notes } = trueReadings(readings);
  const taken = celsius.flatMap((value, i): PlaceValue[] =>
    value === null
      ? []
      : [
          {
            across: ((i % columns) + 0.5) / columns,
            along: (Math.floor(i / columns) + 0.5) / rows,
            value,
            sd: ownSdK,
          },
        ],
  );
  const mean = taken.reduce((sum, { value }) => sum + value, 0) / taken.length;
  const split = splitUnevenness(
    taken.map((place) => ({ ...place, value: mean - place.value })),
    { unit: 'K', ...platen },
  );
  const pattern = ({ across, along }: Place): number => mean - split.smoothAt(across, along);
  const remainder = smoothedRemainder(
    taken,
    taken.map((place) => place.value - pattern(place)),
    platen,
  );
  const map = mapOf(platen, (place) => pattern(place) + remainder(place));
  const meanTrue = map.celsius.reduce((sum, v) => sum + v, 0) / map.celsius.length;
  const unseen = taken.length < 9 ? usualUnevennessK / Math.sqrt(taken.length) : 0;
  const sd = Math.hypot(sharedSdK, ownSdK / Math.sqrt(taken.length), unseen);
  const value = meanTrue - setC;
  const offsetK = { value, low: value - nineInTen * sd, high: value + nineInTen * sd };
  const hottest = Math.max(...map.celsius);
  const coolest = Math.min(...map.celsius);
  const spreadK = hottest - coolest;
  return {
    offsetK,
    spreadK,
    map,
    found: split.found,
    sentences: [
      offsetWords(offsetK),
      ...(spreadK >= 1
        ? [
            `Over the platen it differs by ${kelvin(spreadK)}: ${hottest.toFixed(0)} °C ${atPlace(placeOf(map, hottest))}, ${coolest.toFixed(0)} °C ${atPlace(placeOf(map, coolest))}.`,
          ]
        : taken.length > 1
          ? ['It is alike all over, as far as these readings tell.']
          : []),
      ...(hottest > safetyBoundC
        ? [
            `Its hottest place is above ${safetyBoundC} °C, more than anything here is pressed at: set it lower, keep the room aired, and go by what the press’s maker says.`,
          ]
        : []),
      ...split.remarks,
      ...notes,
    ],
  };
}

/** What to set, from the true temperature less what was set. */
function offsetWords({ value, low, high }: Estimate): string {
  const band = Math.round((high - low) / 2);
  const whole = Math.round(value);
  if (whole === 0) return `The platen is as hot as it says, within ${band} °C: set 200 for 200.`;
  const way = value < 0 ? 'cooler' : 'hotter';
  const said = `The platen is ${Math.abs(whole)} °C ${way} than it says: set ${200 - whole} for 200.`;
  return low < 0 && high > 0
    ? `${said} But this instrument cannot tell better than ±${band} °C, so it may be right as it is.`
    : said;
}

function mapOf(
  { widthMm, depthMm }: { readonly widthMm: number; readonly depthMm: number },
  at: (place: Place) => number,
): PlatenTruth['map'] {
  const longer = Math.max(widthMm, depthMm);
  const columns = Math.max(4, Math.round((mapCells * widthMm) / longer));
  const rows = Math.max(4, Math.round((mapCells * depthMm) / longer));
  const celsius = Array.from({ length: columns * rows }, (_, i) =>
    at({ across: ((i % columns) + 0.5) / columns, along: (Math.floor(i / columns) + 0.5) / rows }),
  );
  return { columns, rows, celsius };
}

function placeOf({ columns, rows, celsius }: PlatenTruth['map'], value: number): Place {
  const i = celsius.indexOf(value);
  return { across: ((i % columns) + 0.5) / columns, along: (Math.floor(i / columns) + 0.5) / rows };
}
