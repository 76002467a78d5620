import { deflateSync } from 'node:zlib';
import { Problem } from '#craft/problem';
import { mmPerInch, pointsPerInch } from '#craft/units';
import { joinAdler32 } from '../bands/adler32.js';
import type { EncodedBand } from '../bands/band-job.js';
import { type BandRange, cutIntoBands } from '../bands/run-bands.js';
import type { OutFile } from './out-file.js';
import type { PdfBoxes } from './pdf-boxes.js';
import { bigEndian32, zlibHead } from './png-writer.js';
import type { SheetImage, SheetWriter } from './sheet-writer.js';

/** A page side beyond this needs UserUnit (ISO 32000-1, Annex C), which some print software passes over. */
export const longestPagePoints = 14_400;

export interface StripLimits {
  /** Up to this a sheet is one image; readers decode an image whole, so a longer one is cut. */
  readonly mostPixelsInOneImage: number;
  readonly pixelsInOneStrip: number;
}
const stripLimits: StripLimits = { mostPixelsInOneImage: 96_000_000, pixelsInOneStrip: 32_000_000 };

interface Strip {
  readonly top: number;
  /** One past the last row; the last row is also the next strip's first. */
  readonly bottom: number;
  readonly bands: readonly BandRange[];
}

/**
 * Images are drawn in by this many points all round (7 nm): a reader that takes every pixel an image touches, as
 * poppler does, then takes none of its neighbours, which would stretch it by one.
 */
const inset = 2e-5;

/**
 * PDF 1.6 written as it comes: objects in order, cross-reference table at the end. The bands go into Flate
 * streams unchanged, since PDF's predictors are PNG's filters. Why not a library: docs/decisions.
 */
export class PdfWriter implements SheetWriter {
  readonly encoding = 'png';
  readonly bands: readonly BandRange[];
  readonly #file: OutFile;
  readonly #image: SheetImage;
  readonly #boxes: PdfBoxes;
  readonly #strips: readonly Strip[];
  /** Byte offset by object number; number 0 is the free list's head. */
  readonly #objects: number[] = [0];
  readonly #stripObjects: number[] = [];
  #colourSpace = '/DeviceRGB';
  #strip = 0;
  #streamStart = 0;
  #adler = 1;
  #open = false;

  constructor(file: OutFile, image: SheetImage, boxes: PdfBoxes, limits: StripLimits = stripLimits) {
    refuseTooLong(boxes);
    this.#file = file;
    this.#image = image;
    this.#boxes = boxes;
    this.#strips = cutIntoStrips(image.width, image.height, limits);
    this.bands = this.#strips.flatMap((strip) => strip.bands);
  }

  async begin(): Promise<void> {
    // Four bytes above 127 mark the file as binary (ISO 32000-1, 7.5.2).
    await this.#file.append(Buffer.from('%PDF-1.6\n%\xe2\xe3\xcf\xd3\n', 'latin1'));
    const { iccBytes } = this.#image;
    if (iccBytes === null) return;
    const packed = deflateSync(iccBytes);
    const profile = await this.#begin(
      `<< /N 3 /Alternate /DeviceRGB /Filter /FlateDecode /Length ${packed.length} >>\nstream\n`,
    );
    await this.#file.append(packed, Buffer.from('\nendstream\nendobj\n'));
    this.#colourSpace = `[/ICCBased ${profile} 0 R]`;
  }

  async write(band: EncodedBand): Promise<void> {
    if (!this.#open) await this.#beginStrip();
    this.#adler = joinAdler32(this.#adler, band.adler, band.filteredBytes);
    await this.#file.append(band.bytes);
    if (band.top + band.rows === this.#strips[this.#strip]!.bottom) await this.#endStrip();
  }

  async end(): Promise<void> {
    const content = this.#content();
    const contents = await this.#begin(`<< /Length ${content.length} >>\nstream\n`);
    await this.#file.append(content, Buffer.from('\nendstream\nendobj\n'));
    const page = contents + 1;
    const pages = contents + 2;
    const xObjects = this.#stripObjects.map((object, index) => `/Strip${index} ${object} 0 R`).join(' ');
    const { media, bleed, trim } = this.#boxes;
    await this.#whole(
      `<< /Type /Page /Parent ${pages} 0 R /MediaBox ${box(media)} /CropBox ${box(media)} /BleedBox ${box(bleed)} ` +
        `/TrimBox ${box(trim)} /Resources << /XObject << ${xObjects} >> >> /Contents ${contents} 0 R >>`,
    );
    await this.#whole(`<< /Type /Pages /Kids [${page} 0 R] /Count 1 >>`);
    // Readers that heed it offer 'actual size' first.
    const catalogue = await this.#whole(
      `<< /Type /Catalog /Pages ${pages} 0 R /ViewerPreferences << /PrintScaling /None >> >>`,
    );
    const info = await this.#whole(`<< /Title ${textString(this.#image.title)} /Creator (Dyewright) >>`);
    const start = this.#file.position;
    const rows = this.#objects.map((offset, index) =>
      index === 0 ? '0000000000 65535 f \n' : `${String(offset).padStart(10, '0')} 00000 n \n`,
    );
    await this.#file.append(
      Buffer.from(
        `xref\n0 ${rows.length}\n${rows.join('')}trailer\n<< /Size ${rows.length} /Root ${catalogue} 0 R /Info ${info} 0 R >>\n` +
          `startxref\n${start}\n%%EOF\n`,
        'latin1',
      ),
    );
  }

  async #beginStrip(): Promise<void> {
    const { top, bottom } = this.#strips[this.#strip]!;
    const { width } = this.#image;
    const lengthObject = this.#objects.length + 1;
    const object = await this.#begin(
      `<< /Type /XObject /Subtype /Image /Width ${width} /Height ${bottom - top} /ColorSpace ${this.#colourSpace} ` +
        `/BitsPerComponent 8 /Interpolate false /Filter /FlateDecode ` +
        `/DecodeParms << /Predictor 15 /Colors 3 /BitsPerComponent 8 /Columns ${width} >> /Length ${lengthObject} 0 R >>\nstream\n`,
    );
    this.#stripObjects.push(object);
    this.#streamStart = this.#file.position;
    this.#adler = 1;
    this.#open = true;
    await this.#file.append(zlibHead);
  }

  async #endStrip(): Promise<void> {
    await this.#file.append(bigEndian32(this.#adler));
    const length = this.#file.position - this.#streamStart;
    await this.#file.append(Buffer.from('\nendstream\nendobj\n'));
    await this.#whole(String(length));
    this.#open = false;
    this.#strip += 1;
  }

  /**
   * Images at their true pitch, 72/ppi points a pixel, from the page's top left corner: drawn at the sheet's own
   * resolution, pixel falls on pixel. The page's size is exact, so up to half a pixel is left over at the far edges.
   */
  #content(): Buffer {
    const { width, ppi } = this.#image;
    const pitch = pointsPerInch / ppi;
    const [, , , pageHeight] = this.#boxes.media;
    const lines = this.#strips.map(({ top, bottom }, index) => {
      const across = width * pitch - 2 * inset;
      const along = (bottom - top) * pitch - 2 * inset;
      const numbers = [across, 0, 0, along, inset, pageHeight - bottom * pitch + inset];
      return `q ${numbers.map(real).join(' ')} cm /Strip${index} Do Q`;
    });
    return Buffer.from(lines.join('\n'), 'latin1');
  }

  async #begin(text: string): Promise<number> {
    const object = this.#objects.length;
    this.#objects.push(this.#file.position);
    await this.#file.append(Buffer.from(`${object} 0 obj\n${text}`, 'latin1'));
    return object;
  }

  async #whole(text: string): Promise<number> {
    return this.#begin(`${text}\nendobj\n`);
  }
}

/** One strip when modest; else strips that share a row, so that no hairline shows where two meet. */
function cutIntoStrips(width: number, height: number, limits: StripLimits): Strip[] {
  const strips: Strip[] = [];
  const whole = width * height <= limits.mostPixelsInOneImage;
  const rows = whole ? height : Math.max(64, Math.floor(limits.pixelsInOneStrip / width));
  for (let top = 0; top < height; top += rows) {
    const bottom = Math.min(height, top + rows + 1);
    strips.push({ top, bottom, bands: cutIntoBands(width, top, bottom, 1) });
    if (bottom === height) break;
  }
  return strips;
}

function refuseTooLong({ media }: PdfBoxes): void {
  const longest = Math.max(media[2], media[3]);
  if (longest <= longestPagePoints + 1e-6) return;
  const lengthMm = Math.round((longest / pointsPerInch) * mmPerInch);
  throw new Problem(
    'output.unsupported',
    `A PDF page can be 5080 mm long at most; this sheet is ${lengthMm} mm.`,
    {
      remedy: 'Choose TIFF or PNG for this sheet, or make it shorter.',
    },
  );
}

/** Cut, not rounded, at a hundred-thousandth of a point: a reader that rounds a page up to whole pixels adds none. */
function box(numbers: readonly number[]): string {
  return `[${numbers.map((value) => real(Math.floor(value * 1e5 + 1e-4) / 1e5)).join(' ')}]`;
}

/** PDF numbers know no exponents. */
function real(value: number): string {
  return value.toFixed(6).replace(/\.?0+$/, '');
}

/** UTF-16 in hexadecimal (ISO 32000-1, 7.9.2.2): every name is safe. */
function textString(value: string): string {
  return `<FEFF${Buffer.from(value, 'utf16le').swap16().toString('hex').toUpperCase()}>`;
}
