import { Problem } from '#craft/problem';
import { kelvin, tiltWords } from './found-words.js';
import { trueReadings } from './instruments.js';
import { splitUnevenness } from './split-unevenness.js';
import { smoothedRemainder } from './temperature-map.js';
import type { Estimate, Found, Place, PlaceValue, PlatenReadings, PlatenTruth, Sides } from './types.js';
import { atPlace, opposite } from './where.js';

/** Fields of the map along the longer side. */
const mapCells = 16;
/** How far a place of a usual platen is from its mean, K: what few readings leave unknown (common practice). */
const usualUnevennessK = 2;
/** Above this no platen of the shop may be run. */
const safetyBoundC = 230;
/** From such a difference on, nobody would call a platen even, whatever has no shape to name. Our choice. */
const clearlyUnlikeK = 3;
const unlikeWords =
  'Its places differ, but in no shape to be named: no side, no edge and no one place. Measure more places.';
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
  platen: { readonly widthMm: number; readonly depthMm: number; readonly sides?: Sides | undefined },
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
  const ends = endsOf(map);
  const [hottest, coolest] = [ends.hottest.celsius, ends.coolest.celsius];
  const spreadK = hottest - coolest;
  const found = split.found.map((one) => {
    if (one.kind === 'tilt') return tiltOnMap(one, map, platen);
    return one.kind === 'even' && spreadK >= clearlyUnlikeK ? { ...one, words: unlikeWords } : one;
  });
  // Of figures that are rounded, the difference is that of the figures said.
  const saidSpread = kelvin(spreadK < 3 ? spreadK : Math.round(hottest) - Math.round(coolest));
  return {
    offsetK,
    spreadK,
    map,
    found,
    sentences: [
      offsetWords(offsetK),
      ...(spreadK >= 1
        ? [
            `Over the platen it differs by ${saidSpread}: ${hottest.toFixed(0)} °C ${atPlace(ends.hottest, platen.sides)}, ${coolest.toFixed(0)} °C ${atPlace(ends.coolest, platen.sides)}.`,
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

/** Hottest and coolest field of the map: what a person sees on it is what is said of it. */
function endsOf({ columns, rows, celsius }: PlatenTruth['map']) {
  const placeOf = (value: number) => {
    const i = celsius.indexOf(value);
    return {
      across: ((i % columns) + 0.5) / columns,
      along: (Math.floor(i / columns) + 0.5) / rows,
      celsius: value,
    };
  };
  return { hottest: placeOf(Math.max(...celsius)), coolest: placeOf(Math.min(...celsius)) };
}

/**
 * A tilt as the map has it, from the mean of its fields along one side to that of the other, or from corner to corner:
 * the plane fitted to the readings reaches beyond them and bends where they do not lie on it. So it never says more than
 * the hottest less the coolest field.
 */
function tiltOnMap(
  tilt: Found,
  { columns, rows, celsius }: PlatenTruth['map'],
  face: { readonly widthMm: number; readonly depthMm: number; readonly sides?: Sides | undefined },
): Found {
  const worst = tilt.at!;
  const isThere = (i: number, count: number, end: number): boolean =>
    end === 0.5 || i === (end === 0 ? 0 : count - 1);
  const side = ({ across, along }: Place): number => {
    const there = celsius.filter(
      (_, i) => isThere(i % columns, columns, across) && isThere(Math.floor(i / columns), rows, along),
    );
    return there.reduce((sum, value) => sum + value, 0) / there.length;
  };
  const size = side(opposite(worst)) - side(worst);
  // A map that falls the other way there has no such tilt to speak of: the plane's own words stay.
  if (!(size > 0)) return tilt;
  const off = size - tilt.strength.value;
  return {
    ...tilt,
    words: tiltWords(worst, size, { unit: 'K', ...face }),
    strength: { value: size, low: tilt.strength.low + off, high: tilt.strength.high + off },
  };
}
