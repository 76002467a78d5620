import type { PlatenCheck, Press } from '#contract';
import { type LengthUnit, sizeText } from './figures.js';

export const pressKindNames: Record<Press['kind'], string> = {
  flat: 'Flat press',
  mug: 'Mug press',
  oven: 'Oven',
};

export const methodNames: Record<PlatenCheck['method'], string> = {
  probe: 'thermocouple probe',
  strips: 'temperature strips',
  'infra-red': 'infra-red thermometer',
};

export const driveNames: Record<NonNullable<Press['drive']>['kind'], string> = {
  'air-cylinder': 'air cylinder',
  spring: 'lever and spring',
  weighed: 'force weighed',
};

/** '380 × 380 mm · heated from above · 1600 W · air cylinder' */
export const pressFacts = (press: Press, unit: LengthUnit): string =>
  [
    sizeText(press.platenWidthMm, press.platenDepthMm, unit),
    ...(press.kind === 'flat'
      ? [press.heatedFrom === 'both' ? 'heated from both sides' : 'heated from above']
      : []),
    ...(press.watts === null ? [] : [`${press.watts}\u00a0W`]),
    press.drive === null ? 'force not known' : driveNames[press.drive.kind],
  ].join(' · ');
