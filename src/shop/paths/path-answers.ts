import type { ArtworkColours, ColourAnswer, ColourPath, PathLook } from '#contract';
import { srgbFromLab, type Triple, type Triple3 } from '#craft/colour';
import { deviceToLab, type IccProfile, labToDevice, parseProfile } from '#craft/icc';
import type { InkModelData, InkPrediction } from '#craft/inkmodel';
import type { WantedColour } from '#craft/pathlook';
import { Problem } from '#craft/problem';
import type { Rgb8 } from '#craft/sheet';
import type { ContentFiles } from '#shop/files';
import { missing } from '#shop/store';
import { artworkColoursOf } from './artwork-colours.js';
import { type ArtworkPictures, artworkCrowd, type CrowdColour } from './artwork-crowd.js';
import { askedColours } from './asked-colours.js';
import { pathLookOf } from './look-path.js';
import { type PathSource, sourceOf } from './path-source.js';
import { inPathThread } from './path-threads.js';
import type { AboutPath, CarriedLab } from './path-work.js';

/** More patches, where the path is least sure or where the colours of an artwork lie. */
export interface FollowUpOptions {
  readonly count: number;
  readonly seed: number;
  readonly towards: 'doubt' | 'artwork';
  readonly artworkId?: string | undefined;
}

/** One patch of a check sheet. */
export interface CheckPatch {
  /** Device values 0..1, on 8-bit codes. */
  readonly rgb: Triple;
  /** What it should come out as, beside the pressed white. */
  readonly relativeLab: Triple;
  readonly kind: 'colour' | 'neutral' | 'limited';
}

export interface PaletteSwatch {
  readonly deviceRgb: Rgb8;
  readonly title: string;
  readonly note: string;
}

/** What kept paths say of colours; the methods of `ColourPaths` of the same names tell more. */
export class PathAnswers {
  constructor(
    private readonly files: ContentFiles,
    private readonly pictures: ArtworkPictures | undefined,
  ) {}

  async foresee(path: ColourPath, rgb: readonly Triple[]): Promise<InkPrediction[]> {
    return inPathThread('foresee', { source: await this.source(path), rgb });
  }

  async followUpPatches(path: ColourPath, data: InkModelData, options: FollowUpOptions): Promise<Triple[]> {
    const { count, seed, towards, artworkId } = options;
    if (towards === 'doubt') return inPathThread('followUp', { data, count, seed });
    if (artworkId === undefined) {
      throw new Problem(
        'request.invalid',
        'It is not said towards which artwork the new patches are to lie.',
        {
          remedy: 'Choose an artwork, or let the patches go where the path is least sure.',
        },
      );
    }
    const crowd = await this.crowd(artworkId);
    const carried = await this.carry(path, crowd);
    return inPathThread('followUp', {
      data,
      count,
      seed,
      crowd: carried.map((one, i) => ({ rgb: one.device, weight: crowd[i]!.share })),
    });
  }

  async checkPatches(path: ColourPath, options: { count: number; seed: number }): Promise<CheckPatch[]> {
    const profile = await this.profile(path);
    const toDevice = labToDevice(profile);
    const toLab = deviceToLab(profile);
    const chosen = await inPathThread('checkColours', { source: await this.source(path), ...options });
    return chosen.map(({ lab, kind }): CheckPatch => {
      const rgb = toDevice(lab).map((v) => Math.round(255 * v) / 255) as Triple3;
      // A colour out of reach is judged against the nearest that the path makes of it.
      return { rgb, relativeLab: kind === 'limited' ? toLab(rgb) : lab, kind };
    });
  }

  async paletteSwatches(
    path: ColourPath,
    colours: readonly { hex: string; name: string }[],
  ): Promise<PaletteSwatch[]> {
    if (colours.length > 0) {
      const wanted = askedColours({ colours: colours.map(({ hex }) => ({ hex })) });
      const answers = await this.answers(path, wanted);
      return answers.map((answer, i) =>
        swatchOf(answer, colours[i]!.name || colours[i]!.hex, colours[i]!.hex),
      );
    }
    const chosen = await inPathThread('palette', { source: await this.source(path) });
    const answers = await this.answers(
      path,
      chosen.map(({ lab }) => ({ lab, isAbsolute: false })),
    );
    return answers.map((answer, i) => swatchOf(answer, chosen[i]!.name, answer.wantedHex));
  }

  async greyDevice(path: ColourPath | null): Promise<(relativeLab: Triple) => Triple> {
    if (path === null) return (lab) => srgbFromLab(lab).map((v) => Math.min(1, Math.max(0, v))) as Triple3;
    const profile = await this.profile(path);
    const toDevice = labToDevice(profile);
    return (lab) => toDevice(lab) as Triple3;
  }

  async look(path: ColourPath): Promise<PathLook> {
    return pathLookOf(path, await inPathThread('look', await this.about(path)));
  }

  async artworkColours(path: ColourPath, artworkId: string): Promise<ArtworkColours> {
    const crowd = await this.crowd(artworkId);
    const carried = await this.carry(path, crowd);
    const about = await this.about(path);
    const doubts =
      path.measurement === undefined
        ? null
        : await inPathThread('foresee', { source: about.source, rgb: carried.map((one) => one.device) });
    return artworkColoursOf(
      carried.map((one, i) => ({
        crowd: crowd[i]!,
        wantedLab: one.wantedLab,
        comesOutLab: one.comesOutLab,
        doubtDeltaE00:
          doubts === null ? null : Math.hypot(doubts[i]!.expectedDeltaE00, about.readingErrorDeltaE00),
      })),
    );
  }

  async answers(path: ColourPath, wanted: readonly WantedColour[]): Promise<ColourAnswer[]> {
    return inPathThread('answer', { ...(await this.about(path)), wanted });
  }

  private async about(path: ColourPath): Promise<AboutPath> {
    return {
      source: await this.source(path),
      readingErrorDeltaE00: path.measurement?.readingError?.meanDeltaE00 ?? 0,
    };
  }

  private crowd(artworkId: string): Promise<CrowdColour[]> {
    if (this.pictures === undefined) throw missing('artwork', artworkId);
    return artworkCrowd(this.pictures, artworkId);
  }

  private async carry(path: ColourPath, crowd: readonly CrowdColour[]): Promise<CarriedLab[]> {
    const icc = await this.files.bytesOf(path.iccHash);
    return inPathThread('carry', { icc, srgb: crowd.map((one) => one.srgb) });
  }

  private source(path: ColourPath): Promise<PathSource> {
    return sourceOf(path, this.files);
  }

  private async profile(path: ColourPath): Promise<IccProfile> {
    return parseProfile(await this.files.bytesOf(path.iccHash));
  }
}

function swatchOf(answer: ColourAnswer, title: string, hex: string): PaletteSwatch {
  const [r, g, b] = answer.deviceRgb;
  const off = answer.reached ? '' : ` → ${answer.comesOutHex} (${answer.missDeltaE00.toFixed(1)} ΔE00 off)`;
  return { deviceRgb: [r, g, b], title, note: `${hex.toLowerCase()}${off}` };
}
