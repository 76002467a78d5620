import { findGreyCurve, findShaper, hasOwnTable, xyzOf } from './device-side.js';
import type { DeviceSpace, IccProfile, ProfileDescription } from './types.js';

const classes: Readonly<Record<string, string>> = {
  prtr: 'output (printer)',
  mntr: 'display',
  scnr: 'input (scanner or camera)',
  spac: 'colour space',
  abst: 'abstract (an effect)',
};
const spaces: readonly string[] = ['RGB', 'GRAY', 'CMYK'] satisfies DeviceSpace[];
const mappings = ['perceptual', 'relative', 'saturation'] as const;

/** What a profile is, in words, and what it can be used for. */
export function describeProfile(profile: IccProfile): ProfileDescription {
  const { header } = profile;
  const shaper = findShaper(profile) !== undefined || findGreyCurve(profile) !== undefined;
  const down = mappings.filter((intent) => hasOwnTable(profile, 'B2A', intent));
  const up = mappings.filter((intent) => hasOwnTable(profile, 'A2B', intent));
  const colourSpace = spaces.includes(header.colourSpace) ? (header.colourSpace as DeviceSpace) : 'other';
  const device = colourSpace !== 'other' && header.deviceClass !== 'abst';
  const canBeSource = device && (shaper || up.length > 0);
  const canBeDestination = device && colourSpace === 'RGB' && (shaper || down.length > 0);
  const { major, minor, fix } = header.version;
  const direction = header.deviceClass === 'prtr' || down.length > 0 ? down : up;
  return {
    description: textOf(profile, 'desc') || 'Profile without a name',
    copyright: textOf(profile, 'cprt'),
    version: `${major}.${minor}.${fix}`,
    deviceClass: classes[header.deviceClass] ?? 'of an unknown class',
    colourSpace,
    pcs: header.pcs,
    // A matrix has no mapping of its own: it is colorimetric whatever is asked.
    intents: direction.length > 0 ? direction : shaper ? ['relative'] : [],
    hasTables: up.length > 0 || down.length > 0,
    canBeSource,
    canBeDestination,
    isRgbOutput: canBeDestination && canBeSource && header.deviceClass === 'prtr',
    mediaWhite: xyzOf(profile, 'wtpt') ?? null,
  };
}

function textOf(profile: IccProfile, signature: string): string {
  const tag = profile.tags.get(signature);
  return tag?.kind === 'text' ? tag.text : '';
}
