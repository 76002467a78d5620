import type { ColourPath } from '#contract';
import { describeProfile, type IccProfile, type ProfileDescription, parseProfile } from '#craft/icc';
import { Problem } from '#craft/problem';
import type { ContentFiles } from '#shop/files';
import { missing, type Records } from '#shop/store';

/** A v4 printer profile with fine tables has a few MB; no honest one comes near this. */
const maxProfileBytes = 64_000_000;

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

async function freeId(records: Records, name: string): Promise<string> {
  const base =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 48)
      .replace(/-+$/, '') || 'path';
  for (let number = 1; ; number += 1) {
    const id = number === 1 ? base : `${base}-${number}`;
    if ((await records.colourPaths.get(id)) === undefined) return id;
  }
}
