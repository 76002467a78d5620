import { crc32, deflateSync } from 'node:zlib';
import { joinAdler32 } from '../bands/adler32.js';
import type { EncodedBand } from '../bands/band-job.js';
import { type BandRange, cutIntoBands } from '../bands/run-bands.js';
import type { OutFile } from './out-file.js';
import type { SheetImage, SheetWriter } from './sheet-writer.js';

/** zlib stream head: deflate, 32 K window, check bits (RFC 1950). */
export const zlibHead = Uint8Array.of(0x78, 0x01);

/** PNG, third edition: truecolour, one IDAT chunk a band, pHYs in pixels per metre, iCCP when tagged. */
export class PngWriter implements SheetWriter {
  readonly encoding = 'png';
  readonly bands: readonly BandRange[];
  readonly #file: OutFile;
  readonly #image: SheetImage;
  #adler = 1;

  constructor(file: OutFile, image: SheetImage) {
    this.#file = file;
    this.#image = image;
    this.bands = cutIntoBands(image.width, 0, image.height, image.bits / 8);
  }

  async begin(): Promise<void> {
    const { width, height, bits, ppi, iccBytes } = this.#image;
    const header = Buffer.alloc(13);
    header.writeUInt32BE(width, 0);
    header.writeUInt32BE(height, 4);
    header.set([bits, 2, 0, 0, 0], 8);
    const perMetre = Math.round(ppi / 0.0254);
    const density = Buffer.alloc(9);
    density.writeUInt32BE(perMetre, 0);
    density.writeUInt32BE(perMetre, 4);
    density[8] = 1;
    await this.#file.append(Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10), chunk('IHDR', header));
    if (iccBytes !== null) {
      const name = Buffer.from('colour path\0\0', 'latin1');
      await this.#file.append(chunk('iCCP', Buffer.concat([name, deflateSync(iccBytes)])));
    }
    await this.#file.append(chunk('pHYs', density), chunk('IDAT', zlibHead));
  }

  async write(band: EncodedBand): Promise<void> {
    this.#adler = joinAdler32(this.#adler, band.adler, band.filteredBytes);
    const head = Buffer.alloc(8);
    head.writeUInt32BE(band.bytes.length, 0);
    head.write('IDAT', 4, 'latin1');
    await this.#file.append(head, band.bytes, bigEndian32(band.crc));
  }

  async end(): Promise<void> {
    await this.#file.append(chunk('IDAT', bigEndian32(this.#adler)), chunk('IEND', new Uint8Array(0)));
  }
}

export function bigEndian32(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value, 0);
  return bytes;
}

function chunk(type: string, data: Uint8Array): Buffer {
  const name = Buffer.from(type, 'latin1');
  return Buffer.concat([bigEndian32(data.length), name, data, bigEndian32(crc32(data, crc32(name)))]);
}
