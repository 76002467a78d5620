import type { ColourPath, PrintSetup, SheetRequest } from '#contract';
import { builtinProfile, type DeviceLink, type IccProfile, type ReachTable } from '#craft/icc';
import { trustPhrase } from '#craft/verification';
import type { DrawableArtwork } from '#shop/artwork';
import type { ColourPaths } from '#shop/paths';
import { inColourThread } from './colour-pool.js';
import { Recent } from './recent.js';

/** How the artwork's colours get to the printer, for one sheet. */
export interface SheetColour {
  readonly path: ColourPath | null;
  /** The path's profile; null: not calibrated, pixels pass as sRGB. */
  readonly profile: IccProfile | null;
  readonly iccBytes: Uint8Array | null;
  readonly intent: PrintSetup['intent'];
  readonly blackPointCompensation: boolean;
  readonly sentence: string;
  /** Names the way from artwork to printer: equal keys, equal colours. */
  readonly key: string;
}

/** Works the colour out once per (artwork profile, colour path, intent, black point compensation). */
export class ColourDesk {
  private readonly profiles = new Recent<{ bytes: Uint8Array; profile: IccProfile }>(4);
  private readonly links = new Recent<DeviceLink>(8);
  private readonly proofs = new Recent<DeviceLink>(4);
  private readonly reaches = new Recent<ReachTable>(6);

  constructor(private readonly paths: ColourPaths) {}

  async colourFor(
    request: Pick<SheetRequest, 'intent' | 'blackPointCompensation'>,
    setup: PrintSetup,
  ): Promise<SheetColour> {
    const intent = request.intent ?? setup.intent;
    const blackPointCompensation = request.blackPointCompensation ?? setup.blackPointCompensation;
    const path = setup.colourPathId === null ? null : await this.paths.get(setup.colourPathId);
    const known =
      path === null ? null : await this.profiles.get(path.iccHash, () => this.paths.profile(path));
    return {
      path,
      profile: known?.profile ?? null,
      iccBytes: known?.bytes ?? null,
      intent,
      blackPointCompensation,
      sentence:
        path === null ? uncalibratedSentence : calibratedSentence(path, intent, blackPointCompensation),
      key: `${path?.iccHash ?? 'srgb'}:${intent}:${blackPointCompensation}`,
    };
  }

  /** Artwork numbers → printer RGB. */
  link(artwork: DrawableArtwork, colour: SheetColour): Promise<DeviceLink> {
    return this.links.get(`${artwork.profileKey}:${colour.key}`, () =>
      inColourThread({
        kind: 'link',
        options: {
          source: artwork.profile,
          destination: colour.profile ?? builtinProfile('srgb'),
          intent: colour.intent,
          blackPointCompensation: colour.blackPointCompensation,
        },
      }),
    );
  }

  /** Printer RGB → the screen; null when the path is not known. */
  async proof(colour: SheetColour): Promise<DeviceLink | null> {
    const { path, profile } = colour;
    if (path === null || profile === null) return null;
    return this.proofs.get(path.iccHash, () => inColourThread({ kind: 'proof', path: profile }));
  }

  /** What the path reaches of the artwork's colours; null when the path is not known. */
  async reach(artwork: DrawableArtwork, colour: SheetColour): Promise<ReachTable | null> {
    const { profile } = colour;
    if (profile === null) return null;
    return this.reaches.get(`${artwork.profileKey}:${colour.key}`, () =>
      inColourThread({
        kind: 'reach',
        options: {
          source: artwork.profile,
          destination: profile,
          intent: colour.intent,
          blackPointCompensation: colour.blackPointCompensation,
        },
      }),
    );
  }
}

const uncalibratedSentence =
  'Colour is not calibrated: the pixels pass as sRGB, and what the printer, ink and blank make of them is not known.';

function calibratedSentence(
  path: ColourPath,
  intent: PrintSetup['intent'],
  blackPointCompensation: boolean,
): string {
  const how = { perceptual: 'perceptual', relative: 'relative colorimetric', saturation: 'saturation' }[
    intent
  ];
  const compensation = blackPointCompensation ? 'with' : 'without';
  return `Colour by “${path.name}”: ${trust(path)}; ${how}, ${compensation} black point compensation.`;
}

function trust({ measurement }: ColourPath): string {
  return measurement === undefined
    ? 'an imported profile, which nobody measured here'
    : `${trustPhrase(measurement.grade, measurement.expectedError)} where the printer reaches`;
}
