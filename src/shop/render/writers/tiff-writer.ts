import type { EncodedBand } from '../bands/band-job.js';
import { type BandRange, cutIntoBands } from '../bands/run-bands.js';
import type { OutFile } from './out-file.js';
import type { SheetImage, SheetWriter } from './sheet-writer.js';

/** Offsets above this need BigTIFF; decided by the pixels' own size, since deflate may gain nothing. */
const classicBytes = 4_000_000_000;

const type = { ascii: 2, short: 3, long: 4, rational: 5, undefined: 7, long8: 16 } as const;

interface Field {
  readonly tag: number;
  readonly type: number;
  readonly count: number;
  readonly bytes: Buffer;
}

/**
 * TIFF 6.0, RGB, one deflated strip a band (compression 8, predictor 2: Adobe's TIFF technical notes), little-endian,
 * the directory at the end. BigTIFF when the pixels exceed what 32-bit offsets reach.
 */
export class TiffWriter implements SheetWriter {
  readonly encoding = 'tiff';
  readonly bands: readonly BandRange[];
  readonly #file: OutFile;
  readonly #image: SheetImage;
  readonly #big: boolean;
  readonly #offsets: number[] = [];
  readonly #counts: number[] = [];

  constructor(file: OutFile, image: SheetImage, options: { readonly big?: boolean } = {}) {
    this.#file = file;
    this.#image = image;
    const pixelBytes = image.width * image.height * 3 * (image.bits / 8);
    this.#big = options.big ?? pixelBytes > classicBytes;
    this.bands = cutIntoBands(image.width, 0, image.height, image.bits / 8);
  }

  async begin(): Promise<void> {
    // The directory's offset is filled in at the end.
    const head = Buffer.alloc(this.#big ? 16 : 8);
    head.write('II', 0, 'latin1');
    head.writeUInt16LE(this.#big ? 43 : 42, 2);
    if (this.#big) head.writeUInt16LE(8, 4);
    await this.#file.append(head);
  }

  async write(band: EncodedBand): Promise<void> {
    this.#offsets.push(this.#file.position);
    this.#counts.push(band.bytes.length);
    await this.#file.append(band.bytes);
  }

  async end(): Promise<void> {
    const fields = this.#fields().sort((a, b) => a.tag - b.tag);
    const inlineBytes = this.#big ? 8 : 4;
    const place = new Map<Field, number>();
    for (const field of fields) {
      if (field.bytes.length <= inlineBytes) continue;
      await this.#alignTo(8);
      place.set(field, this.#file.position);
      await this.#file.append(field.bytes);
    }
    await this.#alignTo(8);
    const directory = this.#file.position;
    await this.#file.append(this.#directory(fields, place));
    await this.#file.patch(this.#offset(directory), this.#big ? 8 : 4);
  }

  #fields(): Field[] {
    const { width, height, bits, ppi, iccBytes, title } = this.#image;
    const text = (value: string) => Buffer.from(`${value.replace(/[^ -~]/g, '?')}\0`, 'latin1');
    const ascii = (tag: number, value: string): Field => ({
      tag,
      type: type.ascii,
      count: text(value).length,
      bytes: text(value),
    });
    const resolution = longs([ppi, 1]);
    const strips = this.#big ? longs8 : longs;
    const stripType = this.#big ? type.long8 : type.long;
    const fields: Field[] = [
      { tag: 256, type: type.long, count: 1, bytes: longs([width]) },
      { tag: 257, type: type.long, count: 1, bytes: longs([height]) },
      { tag: 258, type: type.short, count: 3, bytes: shorts([bits, bits, bits]) },
      { tag: 259, type: type.short, count: 1, bytes: shorts([8]) }, // deflate
      { tag: 262, type: type.short, count: 1, bytes: shorts([2]) }, // RGB
      ascii(270, title),
      { tag: 273, type: stripType, count: this.#offsets.length, bytes: strips(this.#offsets) },
      { tag: 274, type: type.short, count: 1, bytes: shorts([1]) },
      { tag: 277, type: type.short, count: 1, bytes: shorts([3]) },
      { tag: 278, type: type.long, count: 1, bytes: longs([this.bands[0]!.rows]) },
      { tag: 279, type: stripType, count: this.#counts.length, bytes: strips(this.#counts) },
      { tag: 282, type: type.rational, count: 1, bytes: resolution },
      { tag: 283, type: type.rational, count: 1, bytes: resolution },
      { tag: 284, type: type.short, count: 1, bytes: shorts([1]) },
      { tag: 296, type: type.short, count: 1, bytes: shorts([2]) }, // inch
      ascii(305, 'Dyewright'),
      { tag: 317, type: type.short, count: 1, bytes: shorts([2]) }, // horizontal differences
    ];
    if (iccBytes !== null) {
      fields.push({ tag: 34675, type: type.undefined, count: iccBytes.length, bytes: Buffer.from(iccBytes) });
    }
    return fields;
  }

  #directory(fields: readonly Field[], place: ReadonlyMap<Field, number>): Buffer {
    const parts: Buffer[] = [];
    const count = Buffer.alloc(this.#big ? 8 : 2);
    count.writeUInt16LE(fields.length, 0);
    parts.push(count);
    for (const field of fields) {
      const head = Buffer.alloc(this.#big ? 12 : 8);
      head.writeUInt16LE(field.tag, 0);
      head.writeUInt16LE(field.type, 2);
      head.writeUInt32LE(field.count, 4);
      const value = Buffer.alloc(this.#big ? 8 : 4);
      const at = place.get(field);
      if (at === undefined) field.bytes.copy(value);
      else this.#offset(at).copy(value);
      parts.push(head, value);
    }
    parts.push(this.#offset(0));
    return Buffer.concat(parts);
  }

  #offset(value: number): Buffer {
    return this.#big ? longs8([value]) : longs([value]);
  }

  async #alignTo(bytes: number): Promise<void> {
    const over = this.#file.position % bytes;
    if (over > 0) await this.#file.append(Buffer.alloc(bytes - over));
  }
}

function shorts(values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(values.length * 2);
  values.forEach((value, index) => {
    bytes.writeUInt16LE(value, index * 2);
  });
  return bytes;
}

function longs(values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(values.length * 4);
  values.forEach((value, index) => {
    bytes.writeUInt32LE(value, index * 4);
  });
  return bytes;
}

function longs8(values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(values.length * 8);
  values.forEach((value, index) => {
    bytes.writeBigUInt64LE(BigInt(value), index * 8);
  });
  return bytes;
}
