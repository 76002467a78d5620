import { Problem } from '#craft/problem';
import { trueCelsius } from './radiance.js';
import type { PlatenReadings } from './types.js';

/** Readings as true temperatures, with how far they may be off together and each on its own. */
export interface TrueReadings {
  readonly celsius: readonly (number | null)[];
  /** Standard deviation of what all readings share: the instrument, the face's emissivity, a step of the strips. */
  readonly sharedSdK: number;
  /** Of one reading beside the others. */
  readonly ownSdK: number;
  readonly notes: readonly string[];
}

/**
 * ± of the usual instrument at 200 °C. Probe: type K of class 2 is ±2.5 °C (IEC 60584-1, from memory), and its meter adds
 * some; strips: ±1 % of the marked temperature; infra-red: ±2 % of the reading, the usual statement of makers (both from
 * memory).
 */
const usualErrorK = { probe: 3, strips: 2, 'infra-red': 4 } as const;
/** From one reading to the next: contact, time, the thermostat's swing (common practice; from memory). */
const repeatsK = { probe: 1, strips: 0.5, 'infra-red': 1 } as const;

/** Strips are marked every 10 °F in most ranges near 200 °C (common practice; from memory). */
const usualStepK = 5.6;

/** Dark, coated platens: between 0.88 and 0.96 (tables of emissivity give 0.85 to 0.95 for dark coatings and PTFE; from memory). */
const platenEmissivity = 0.92;
const emissivityDoubt = 0.04;
const usualEmissivitySet = 0.95;
const roomC = 25;
/** A setting below this means bare metal, about 0.04 to 0.3, where a doubt of 0.02 is worth tens of kelvin. */
const leastEmissivity = 0.6;
/** An infra-red reading this far below what was set is no platen that is cool but one whose own heat cannot be seen. */
const bareMetalK = 45;
const farOffK = 60;

/** Makers' limits are taken as evenly likely within ± (JCGM 100:2008, 4.3.7). */
const ofLimits = (k: number): number => k / Math.sqrt(3);

export function trueReadings(readings: PlatenReadings): TrueReadings {
  const { method, celsius, setC } = readings;
  const shown = celsius.filter((v) => v !== null);
  if (celsius.length !== readings.columns * readings.rows || shown.length === 0) {
    throw new Problem(
      'press.invalid',
      shown.length === 0
        ? 'No temperature was given.'
        : `${readings.columns} × ${readings.rows} places need as many temperatures, not ${celsius.length}.`,
      {
        remedy:
          'Give one temperature for each place, row by row from the back; leave out what was not taken.',
      },
    );
  }
  const instrument = ofLimits(readings.instrumentK ?? usualErrorK[method]);
  const found =
    method === 'strips'
      ? stripReadings(celsius, instrument)
      : method === 'infra-red'
        ? infraRedReadings(readings, instrument)
        : { celsius, sharedSdK: instrument, ownSdK: repeatsK.probe, notes: probeNotes };
  const taken = found.celsius.filter((v) => v !== null);
  const off = taken.reduce((sum, v) => sum + v, 0) / taken.length - setC;
  if (method === 'infra-red' && off < -bareMetalK) throw bareMetal(`shows ${Math.round(-off)} °C too little`);
  if (Math.abs(off) > farOffK) {
    throw new Problem(
      'press.invalid',
      `The readings are ${Math.round(Math.abs(off))} °C ${off < 0 ? 'below' : 'above'} what was set; a platen that heats is not so far off.`,
      { remedy: 'Let the press come to its temperature, look whether all is in °C, and measure again.' },
    );
  }
  return found;
}

const probeNotes = [
  'A probe reads true only where it is pressed between pads until it no longer rises; in the open it reads low.',
];

/** The hottest mark that changed is a lower bound, the next an upper one: in between, evenly likely. */
function stripReadings(celsius: readonly (number | null)[], instrument: number): TrueReadings {
  const marks = [...new Set(celsius.filter((v) => v !== null))].toSorted((a, b) => a - b);
  const apart = marks.slice(1).map((v, i) => v - marks[i]!);
  const finest = Math.min(...apart);
  const stepK = finest >= 2 && finest <= 12 ? finest : usualStepK;
  const ofStep = stepK / Math.sqrt(12);
  return {
    celsius: celsius.map((v) => (v === null ? null : v + stepK / 2)),
    // Where all show the same mark, all are wrong by the same part of a step.
    sharedSdK: Math.hypot(instrument, ofStep / Math.sqrt(marks.length)),
    ownSdK: Math.hypot(ofStep, repeatsK.strips),
    notes: [
      `Each strip’s hottest mark that changed was typed in; the truth lies between it and the next, taken as ${stepK.toFixed(1)} °C higher, so half of that was added.`,
      'Strips keep the hottest moment of the thermostat’s swing.',
    ],
  };
}

function infraRedReadings(readings: PlatenReadings, instrument: number): TrueReadings {
  const set = readings.emissivitySet ?? usualEmissivitySet;
  if (set < leastEmissivity) throw bareMetal(`was set to an emissivity of ${set}`);
  const at = (shown: number, emissivity: number): number => trueCelsius(shown, set, emissivity, roomC);
  const taken = readings.celsius.filter((v) => v !== null);
  const mean = taken.reduce((sum, v) => sum + v, 0) / taken.length;
  const doubt =
    (at(mean, platenEmissivity - emissivityDoubt) - at(mean, platenEmissivity + emissivityDoubt)) / 2;
  const correction = at(mean, platenEmissivity) - mean;
  return {
    celsius: readings.celsius.map((v) => (v === null ? null : at(v, platenEmissivity))),
    sharedSdK: Math.hypot(instrument, ofLimits(doubt)),
    ownSdK: repeatsK['infra-red'],
    notes: [
      `The thermometer was set to an emissivity of ${set}${readings.emissivitySet === undefined ? ', as most are' : ''}; a dark, coated platen has about ${platenEmissivity}, so ${correction >= 0 ? `${correction.toFixed(1)} °C were added` : `${(-correction).toFixed(1)} °C were taken away`}, and it may be ${doubt.toFixed(0)} °C more or less.`,
      'A bare, shiny platen cannot be measured from afar: with the press cold, stick a patch of matt tape made for such heat on it, or paint one, and aim at that.',
    ],
  };
}

const bareMetal = (what: string): Problem =>
  new Problem(
    'press.invalid',
    `The infra-red thermometer ${what}: bare metal mirrors the room, and its own heat cannot be told from afar.`,
    {
      remedy:
        'With the press cold, stick matt tape made for such heat on the platen or paint a spot matt black, and aim at that with an emissivity of 0.95; or use a probe or strips.',
    },
  );
