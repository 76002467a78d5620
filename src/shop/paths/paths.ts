import type { ArtworkColours, ColourAnswer, ColourPath, Grade, PathLook, PathMeasurement } from '#contract';
import type { DeviceFull } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import { describeProfile, type IccProfile, type ProfileDescription, parseProfile } from '#craft/icc';
import type { ColourModel, InkModelData, InkPrediction } from '#craft/inkmodel';
import { Problem } from '#craft/problem';
import type { ContentFiles } from '#shop/files';
import { missing, type Records } from '#shop/store';
import type { ArtworkPictures } from './artwork-crowd.js';
import { askedColours } from './asked-colours.js';
import { type EyeJudgement, eyePathOf } from './eye-path.js';
import { freeId } from './free-id.js';
import { inkModelOf } from './ink-model-file.js';
import { type KeptPath, keepPath, keptFromLearnt } from './keep-learnt.js';
import { modelOf } from './known-paths.js';
import {
  type LearnPathOptions,
  type LearntPath,
  learnPath,
  type PathWorkOptions,
  profileOf,
} from './learn-path.js';
import { type MeasuredSource, sourceOfFile } from './measured-source.js';
import { measurementsOf } from './measurements-of.js';
import { type CheckPatch, type FollowUpOptions, type PaletteSwatch, PathAnswers } from './path-answers.js';
import { type PathSource, sourceOf } from './path-source.js';

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
  /** How the colours were come by, where a person knows better than the file says. */
  readonly grade?: Grade | undefined;
  readonly belongsTo?: ColourPath['belongsTo'];
}

export class ColourPaths {
  private readonly asked: PathAnswers;

  constructor(
    private readonly records: Records,
    private readonly files: ContentFiles,
    private readonly now: () => Date,
    /** Where artwork is shown from; absent: there is none. */
    pictures?: ArtworkPictures,
  ) {
    this.asked = new PathAnswers(files, pictures);
  }

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
    const kept = keptFromLearnt(learnt, options.belongsTo);
    return { path: await this.keep(kept, shownName(options.name)), learnt };
  }

  /**
   * Keeps a colour path learnt from readings, as `build` does from a file.
   * Errors: chart.unusable, job.cancelled, disk.full.
   */
  async learn(
    sources: readonly MeasuredSource[],
    options: Omit<BuildPathOptions, 'deviceFull' | 'grade'> & Pick<KeptPath, 'belongsTo'>,
  ): Promise<{ path: ColourPath; learnt: LearntPath }> {
    const learnt = await learnPath(sources, this.learning(options));
    return {
      path: await this.keep(keptFromLearnt(learnt, options.belongsTo), shownName(options.name)),
      learnt,
    };
  }

  /** From device to colour, whatever the path was made from. Errors: file.missing, chart.unusable, profile.unsupported. */
  async colourModel(path: ColourPath): Promise<ColourModel> {
    return modelOf(await this.source(path));
  }

  /** What the path's colours are worked out from. Errors: file.missing, chart.unusable. */
  source(path: ColourPath): Promise<PathSource> {
    return sourceOf(path, this.files);
  }

  /** What the path says comes out for device values 0..1, and its doubt. Errors: as `look`. */
  foresee(path: ColourPath, rgb: readonly Triple[]): Promise<InkPrediction[]> {
    return this.asked.foresee(path, rgb);
  }

  /**
   * Device values 0..1, on 8-bit codes, for a follow-up sheet.
   * Errors: record.missing, profile.unsupported for a path that was not measured, request.invalid.
   */
  async followUpPatches(id: string, options: FollowUpOptions): Promise<Triple[]> {
    const path = await this.get(id);
    return this.asked.followUpPatches(path, await this.model(path), options);
  }

  /**
   * What a check sheet prints, through the path's own profile as a sheet would be.
   * Errors: record.missing, file.missing, profile.unsupported.
   */
  async checkPatches(id: string, options: { count: number; seed: number }): Promise<CheckPatch[]> {
    return this.asked.checkPatches(await this.get(id), options);
  }

  /**
   * Swatches for a palette sheet; no colours: a palette over all that the path reaches.
   * Errors: record.missing, file.missing, profile.unsupported.
   */
  async paletteSwatches(
    id: string,
    colours: readonly { hex: string; name: string }[],
  ): Promise<PaletteSwatch[]> {
    return this.asked.paletteSwatches(await this.get(id), colours);
  }

  /** Media-relative Lab → device values 0..1 through the path, or as the plain driver takes sRGB. */
  async greyDevice(id: string | undefined): Promise<(relativeLab: Triple) => Triple> {
    return this.asked.greyDevice(id === undefined ? null : await this.get(id));
  }

  /** Everything there is to see of a path. Errors: record.missing, file.missing, profile.unsupported. */
  async look(id: string): Promise<PathLook> {
    return this.asked.look(await this.get(id));
  }

  /** What comes out when colours are asked for. Errors: as `look`, and request.invalid. */
  async colours(id: string, question: unknown): Promise<ColourAnswer[]> {
    const wanted = askedColours(question);
    return this.asked.answers(await this.get(id), wanted);
  }

  /** What an artwork's colours will suffer. Errors: as `look`. */
  async artworkColours(id: string, artworkId: string): Promise<ArtworkColours> {
    return this.asked.artworkColours(await this.get(id), artworkId);
  }

  /**
   * Keeps a path judged by eye: greys picked on a grey sheet that was printed through `base`, or plainly.
   * Errors: request.invalid, disk.full, job.cancelled.
   */
  async judgedByEye(made: EyeJudgement): Promise<ColourPath> {
    const kept = await eyePathOf(made, this.files, this.now());
    return this.keep(kept, made.name.trim().slice(0, 120) || 'Judged by eye');
  }

  /** The ink model of a measured path. Errors: profile.unsupported for an imported one, file.missing, chart.unusable. */
  async model(path: ColourPath): Promise<InkModelData> {
    if (path.origin === 'by-eye') {
      throw new Problem(
        'profile.unsupported',
        `“${path.name}” was judged by eye and has no measured patches.`,
        {
          remedy: 'Choose a path that was built from measured patches.',
        },
      );
    }
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

  /**
   * The path as a profile of that ICC version: as it is kept, or made again from its model.
   * Errors: record.missing, file.missing, profile.unsupported where an imported one has the other version.
   */
  async profileAs(path: ColourPath, iccVersion: 2 | 4, options: PathWorkOptions = {}): Promise<Uint8Array> {
    if (path.iccVersion.startsWith(String(iccVersion))) return this.files.bytesOf(path.iccHash);
    measurementOf(path);
    const { name } = path;
    return profileOf(await this.source(path), { name, iccVersion, now: this.now(), ...options });
  }

  private keep(made: KeptPath, name: string): Promise<ColourPath> {
    const { records, files, now } = this;
    return keepPath(made, name, { records, files, now });
  }

  private learning(options: Omit<BuildPathOptions, 'deviceFull'>): LearnPathOptions {
    return learning(options, this.now());
  }
}

/** As `ColourPaths.build`, kept nowhere: for whoever wants the files only. */
export function learnFrom(bytes: Uint8Array, options: BuildPathOptions, now: Date): Promise<LearntPath> {
  const { deviceFull, grade } = options;
  const table = measurementsOf(bytes, deviceFull === undefined ? {} : { deviceFull });
  return learnPath([sourceOfFile(table, grade)], learning(options, now));
}

function learning(options: Omit<BuildPathOptions, 'deviceFull'>, now: Date): LearnPathOptions {
  const { signal, onProgress, base } = options;
  return {
    name: shownName(options.name),
    iccVersion: options.iccVersion ?? 2,
    now,
    base,
    ...(signal === undefined ? {} : { signal }),
    ...(onProgress === undefined ? {} : { onProgress }),
  };
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
