import { createReadStream, createWriteStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import type { Artwork } from '#contract';
import { describeProfile, type IccProfile, parseProfile } from '#craft/icc';
import { Problem } from '#craft/problem';
import { type ContentFiles, onDisk, type Scratch } from '#shop/files';
import { type ArtworkFacts, pictureForScreen, probeArtwork, sourceProfile } from '#shop/render';
import { missing, type Records } from '#shop/store';
import { displayFileName } from './file-name.js';
import { limitBytes } from './limit-bytes.js';

export interface ArtworkLimits {
  /** Pixels of one picture. */
  readonly maxPixels: number;
  /** Bytes of one file. */
  readonly maxBytes: number;
}

/** Artwork ready to be drawn: where the file is, what is in it, the profile its numbers mean. */
export interface DrawableArtwork {
  readonly record: Artwork;
  readonly path: string;
  readonly facts: ArtworkFacts;
  readonly profile: IccProfile;
  /** Equal for artwork of the same profile: its hash, or the name of what untagged pixels are taken for. */
  readonly profileKey: string;
}

type KeptFacts = Omit<ArtworkFacts, 'icc'> & { readonly iccHash: string | null };

export class ArtworkShelf {
  constructor(
    private readonly records: Records,
    private readonly files: ContentFiles,
    private readonly scratch: Scratch,
    private readonly limits: ArtworkLimits,
    private readonly now: () => Date,
  ) {}

  /**
   * Takes a picture in: the path of a file, or its bytes as a stream. The same bytes again give the record
   * there is. Errors: image.unreadable, image.wrong-type, image.too-large, disk.full, disk.failed, file.missing.
   */
  async add(
    source: string | AsyncIterable<Uint8Array>,
    fileName: string,
    options: { demo?: boolean } = {},
  ): Promise<Artwork> {
    const temporary = this.scratch.file();
    const stream = typeof source === 'string' ? createReadStream(source) : source;
    try {
      await takeIn(stream, temporary, this.limits.maxBytes);
    } catch (error) {
      await this.scratch.discard(temporary);
      throw error;
    }
    return this.takeOver(temporary, fileName, options);
  }

  /** As `add`, for a file that already lies in the scratch folder: it is moved, not copied, or else removed. */
  async takeOver(temporary: string, fileName: string, options: { demo?: boolean } = {}): Promise<Artwork> {
    try {
      const facts = await probeArtwork(temporary, { maxPixels: this.limits.maxPixels });
      const kept = await this.files.adopt(temporary);
      const { icc, ...plain } = facts;
      const iccHash = icc === null ? null : (await this.files.keep(icc)).hash;
      const artwork: Artwork = {
        id: kept.hash,
        fileName: displayFileName(fileName),
        format: facts.format,
        widthPixels: facts.widthPixels,
        heightPixels: facts.heightPixels,
        bitsPerSample: facts.bitsPerSample,
        colourModel: facts.colourModel,
        hasAlpha: facts.hasAlpha,
        profileName: icc === null ? null : profileName(icc),
        remarks: [...facts.remarks],
        createdAt: this.now().toISOString(),
        demo: options.demo ?? false,
      };
      await this.records.artwork.add(artwork, { ...plain, iccHash } satisfies KeptFacts);
      return await this.get(artwork.id);
    } finally {
      await this.scratch.discard(temporary);
    }
  }

  list(): Promise<Artwork[]> {
    return this.records.artwork.list();
  }

  /** Errors: record.missing. */
  async get(id: string): Promise<Artwork> {
    const artwork = await this.records.artwork.get(id);
    if (artwork === undefined) throw missing('artwork', id);
    return artwork;
  }

  /** The artwork as sRGB for the screen, its longer side at most `maxPixels`. Errors: record.missing, file.missing. */
  async picture(
    id: string,
    maxPixels: number,
  ): Promise<{ bytes: Buffer; mediaType: 'image/png' | 'image/jpeg' }> {
    await this.get(id);
    return pictureForScreen(await this.files.pathOf(id), maxPixels);
  }

  /** Errors: record.missing, file.missing. */
  async drawable(id: string): Promise<DrawableArtwork> {
    const record = await this.get(id);
    const { iccHash, ...plain } = (await this.records.artwork.facts(id)) as KeptFacts;
    const icc = iccHash === null ? null : await this.files.bytesOf(iccHash);
    const facts: ArtworkFacts = { ...plain, icc };
    return {
      record,
      path: await this.files.pathOf(id),
      facts,
      profile: await sourceProfile(facts),
      profileKey: iccHash ?? facts.assumed ?? 'srgb',
    };
  }
}

function profileName(icc: Uint8Array): string {
  return describeProfile(parseProfile(icc)).description || 'a profile without a name';
}

async function takeIn(source: AsyncIterable<Uint8Array>, file: string, maxBytes: number): Promise<void> {
  try {
    await onDisk('taking the artwork in', () =>
      pipeline(source, limitBytes(maxBytes), createWriteStream(file, { flags: 'wx' })),
    );
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    throw new Problem('file.missing', 'There is no such artwork file.', {
      remedy: 'Check the path and its spelling.',
      cause: error,
    });
  }
}
