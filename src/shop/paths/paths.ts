import type { ArtworkColours, ColourAnswer, ColourPath, PathLook, PathMeasurement } from '#contract';
import type { DeviceFull } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import { describeProfile, type IccProfile, type ProfileDescription, parseProfile } from '#craft/icc';
import type { ColourModel, InkModelData } from '#craft/inkmodel';
import { Problem } from '#craft/problem';
import type { Rgb8 } from '#craft/sheet';
import type { ContentFiles } from '#shop/files';
import { missing, type Records } from '#shop/store';
import { freeId } from './free-id.js';
import { inkModelOf } from './ink-model-file.js';
import { keepLearnt } from './keep-learnt.js';
import { type LearntPath, learnPath, type PathWorkOptions } from './learn-path.js';
import { measurementsOf } from './measurements-of.js';

/** A v4 printer profile with fine tables has a few MB; no honest one comes near this. */
const maxProfileBytes = 64_000_000;

export interface BuildPathOptions extends PathWorkOptions {
  /** Empty: 'Measured colour path'. */
  readonly name: string;
  /** Default 2, which every program opens. */
  readonly iccVersion?: 2 | 4 | undefined;
  /** What the file's device values are counted to; left out: the largest one tells. */
  readonly deviceFull?: DeviceFull | undefined;
  /** A model to adapt to another paper or blank, by few patches. */
  readonly base?: { readonly name: string; readonly data: InkModelData } | undefined;
}

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

export class ColourPaths {
  constructor(
    private readonly records: Records,
    private readonly files: ContentFiles,
    private readonly now: () => Date,
  ) {}

  list(): Promise<ColourPath[]> {
    return this.records.colourPaths.list();
  }

  /** Errors: record.missing. */
  async get(id: string): Promise<ColourPath> {
    const path = await this.records.colourPaths.get(id);
    if (path === undefined) throw missing('colour path', id);
    return path;
  }

  /**
   * Keeps an RGB output profile as a colour path. `name` empty: the profile's own description. The same
   * profile under the same name gives the record there is.
   * Errors: profile.broken, profile.unsupported, image.too-large, disk.full.
   */
  async importIcc(bytes: Uint8Array, name: string, options: { demo?: boolean } = {}): Promise<ColourPath> {
    if (bytes.byteLength > maxProfileBytes) {
      throw new Problem('profile.broken', 'The file is far larger than any ICC profile.', {
        remedy: 'Choose the .icc or .icm file of the printer.',
      });
    }
    const description = describeProfile(parseProfile(bytes));
    if (!description.isRgbOutput) throw unsuitable(description);
    const kept = await this.files.keep(bytes);
    const shown = (name.trim() || description.description || 'Imported colour path').slice(0, 120);
    return this.records.together(async (records) => {
      const there = (await records.colourPaths.list()).find(
        (path) => path.iccHash === kept.hash && path.name === shown,
      );
      if (there !== undefined) return there;
      const path: ColourPath = {
        id: await freeId(records, shown),
        name: shown,
        origin: 'imported',
        iccHash: kept.hash,
        description: description.description,
        iccVersion: description.version,
        deviceClass: description.deviceClass,
        intents: [...description.intents],
        createdAt: this.now().toISOString(),
        demo: options.demo ?? false,
      };
      await records.colourPaths.add(path);
      return path;
    });
  }

  /**
   * Keeps a colour path learnt from a file of measurements: its model, the measurements and a profile. The same model
   * under the same name gives the record there is.
   * Errors: measurements.broken, chart.unusable, job.cancelled, disk.full.
   */
  async build(
    bytes: Uint8Array,
    options: BuildPathOptions,
  ): Promise<{ path: ColourPath; learnt: LearntPath }> {
    const learnt = await learnFrom(bytes, options, this.now());
    const { records, files, now } = this;
    return { path: await keepLearnt(learnt, shownName(options.name), { records, files, now }), learnt };
  }

  /** From device to colour, whatever the path was made from. */
  colourModel(_path: ColourPath): Promise<ColourModel> {
    return notYet();
  }

  /** Device values 0..1 for a follow-up sheet. */
  followUpPatches(_id: string, _options: FollowUpOptions): Promise<Triple[]> {
    return notYet();
  }

  /** What a check sheet prints, through the path's own profile as a sheet would be. */
  checkPatches(_id: string, _options: { count: number; seed: number }): Promise<CheckPatch[]> {
    return notYet();
  }

  /** Swatches for a palette sheet; no colours: a palette over all that the path reaches. */
  paletteSwatches(_id: string, _colours: readonly { hex: string; name: string }[]): Promise<PaletteSwatch[]> {
    return notYet();
  }

  /** Media-relative Lab → device values 0..1 through the path, or as the plain driver takes sRGB. */
  greyDevice(_id: string | undefined): Promise<(relativeLab: Triple) => Triple> {
    return notYet();
  }

  look(_id: string): Promise<PathLook> {
    return notYet();
  }

  colours(_id: string, _question: unknown): Promise<ColourAnswer[]> {
    return notYet();
  }

  artworkColours(_id: string, _artworkId: string): Promise<ArtworkColours> {
    return notYet();
  }

  /** The ink model of a measured path. Errors: profile.unsupported for an imported one, file.missing, chart.unusable. */
  async model(path: ColourPath): Promise<InkModelData> {
    return inkModelOf(await this.files.bytesOf(measurementOf(path).modelHash));
  }

  /** The measurements of a measured path, as CGATS text. Errors: profile.unsupported for an imported one, file.missing. */
  async measurements(path: ColourPath): Promise<Uint8Array> {
    return this.files.bytesOf(measurementOf(path).measurementsHash);
  }

  /** Errors: record.missing; record.in-use while a print setup names it. The profile's bytes stay for made sheets. */
  async remove(id: string): Promise<void> {
    await this.records.together(async (records) => {
      if ((await records.colourPaths.get(id)) === undefined) throw missing('colour path', id);
      const users = await records.setups.usingPath(id);
      if (users.length > 0) {
        throw new Problem('record.in-use', `The colour path is used by ${listed(users)}.`, {
          remedy: 'Give that print setup another colour path, or none, then remove this one.',
        });
      }
      await records.colourPaths.remove(id);
    });
  }

  /** The profile itself. Errors: file.missing, profile.broken (spoiled on disk). */
  async profile(path: ColourPath): Promise<{ bytes: Uint8Array; profile: IccProfile }> {
    const bytes = await this.files.bytesOf(path.iccHash);
    return { bytes, profile: parseProfile(bytes) };
  }
}

/** As `ColourPaths.build`, kept nowhere: for whoever wants the files only. */
export function learnFrom(bytes: Uint8Array, options: BuildPathOptions, now: Date): Promise<LearntPath> {
  const { signal, onProgress, base, deviceFull } = options;
  const table = measurementsOf(bytes, deviceFull === undefined ? {} : { deviceFull });
  return learnPath(table, {
    name: shownName(options.name),
    iccVersion: options.iccVersion ?? 2,
    now,
    base,
    ...(signal === undefined ? {} : { signal }),
    ...(onProgress === undefined ? {} : { onProgress }),
  });
}

function measurementOf(path: ColourPath): PathMeasurement {
  if (path.measurement !== undefined) return path.measurement;
  throw new Problem('profile.unsupported', `“${path.name}” is an imported profile without measurements.`, {
    remedy: 'Choose a path that was built from measured patches.',
  });
}

const shownName = (name: string): string => (name.trim() || 'Measured colour path').slice(0, 120);

function unsuitable(description: ProfileDescription): Problem {
  const found = `${description.deviceClass}, ${description.colourSpace === 'other' ? 'not RGB' : description.colourSpace}`;
  return new Problem(
    'profile.unsupported',
    `This profile is for ${found}; a colour path needs an RGB output (printer) profile.`,
    {
      remedy: 'Choose the profile made for your printer, ink and paper as an RGB printer.',
    },
  );
}

function listed(names: string[]): string {
  const shown = names.slice(0, 3).map((name) => `“${name}”`);
  return names.length > 3 ? `${shown.join(', ')} and ${names.length - 3} more` : shown.join(' and ');
}

function notYet(): never {
  throw new Problem('internal.fault', 'This is still being built.', { remedy: 'Try again later.' });
}
