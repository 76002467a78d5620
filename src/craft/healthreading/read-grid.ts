import type { SampledPicture } from '#craft/patchreading';
import type { PlaneMap } from '#craft/reading';
import type { HealthGrid } from '#craft/testsheet';
import { scaleAt, stripProfile } from './channel.js';
import { lineFrequency } from './line-frequency.js';
import type { GridReading, Measured } from './types.js';

/** A period of fewer pixels folds back on itself or nearly so. */
const leastPixelsAPeriod = 2.4;
const insetMm = 0.4;

/**
 * A grid of black bars: how far apart they came and how much of their contrast is left.
 * @param ground light of the bare ground, and `black` of the solid, green channel
 */
export function readGrid(
  picture: SampledPicture,
  map: PlaneMap,
  { repeats, periodMm, rect }: HealthGrid,
  ground: number,
  black: number,
): Measured<GridReading> {
  const scale = scaleAt(map, { x: rect.xMm + rect.widthMm / 2, y: rect.yMm + rect.heightMm / 2 });
  const isAcross = repeats === 'across';
  const perMm = isAcross ? scale.across : scale.along;
  if (perMm * periodMm < leastPixelsAPeriod) {
    const pixels = (perMm * periodMm).toFixed(1);
    return {
      isMeasured: false,
      because: `bars ${periodMm.toFixed(2)} mm apart are only ${pixels} pixels apart`,
    };
  }
  const [from, length, side, width] = isAcross
    ? [rect.xMm, rect.widthMm, rect.yMm, rect.heightMm]
    : [rect.yMm, rect.heightMm, rect.xMm, rect.widthMm];
  const stepMm = 0.5 / perMm;
  const profile = stripProfile(picture, map, 1, {
    axis: isAcross ? 'x' : 'y',
    alongFrom: from,
    stepMm,
    count: Math.floor(length / stepMm),
    acrossFrom: side + insetMm,
    acrossTo: side + width - insetMm,
    places: Math.min(80, Math.max(8, Math.round(width * perMm))),
  });
  if (profile.some(Number.isNaN)) return { isMeasured: false, because: 'it lies outside the picture' };
  if (!(ground > black))
    return { isMeasured: false, because: 'the solid beside it is no darker than the ground' };
  const { frequency, amplitude } = lineFrequency(profile, stepMm, 1 / periodMm);
  // First harmonic of bars as wide as their gaps: 2/π of the whole contrast.
  const modulation = amplitude / ((2 / Math.PI) * (ground - black));
  return { isMeasured: true, repeats, periodMm, seenPeriodMm: 1 / frequency, modulation };
}
