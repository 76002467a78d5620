import { readFileSync } from 'node:fs';
import type { PathCheck, Reading, TestSheet, TestSheetOrderInput } from '#contract';
import { deltaE00, labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import type { Shop } from '#shop';
import { type Camera, photograph, placeInPhotograph } from '../simulator/camera.js';
import { withCardBeside } from '../simulator/card-beside.js';
import { measuredOnPiece } from '../simulator/measured-on-piece.js';
import type { Picture } from '../simulator/picture.js';
import { fileOfReader, flatbed } from '../simulator/reader-picture.js';
import { type Dye, lightOfPiece } from '../simulator/spectral-piece.js';
import { heldOut, type SpectralPrinter } from '../simulator/virtual-printer.js';
import type { VirtualReader } from '../simulator/virtual-reader.js';

/** One print, pressed, and how it lies on the glass. */
export interface Pressed {
  readonly png: Buffer;
  readonly dye: Dye;
  readonly seed: number;
}

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
const p95 = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.ceil(0.95 * values.length) - 1]!;
export interface Spread {
  readonly mean: number;
  readonly p95: number;
}
export const spreadOf = (values: readonly number[]): Spread => ({ mean: mean(values), p95: p95(values) });

/** Of an order without printer and blank, which are the studio's. */
type Without<T> = T extends unknown ? Omit<T, 'setupId' | 'blankId'> : never;
type SheetOrder = Without<TestSheetOrderInput>;

/** A studio with a printer, a flatbed and an instrument, all invented; the program is used as a door would. */
export class VirtualStudio {
  constructor(
    readonly shop: Shop,
    readonly printer: SpectralPrinter,
    private readonly scanner: VirtualReader,
    private readonly about: { readonly setupId: string; readonly blankId: string },
  ) {}

  async sheet(order: SheetOrder): Promise<{ sheet: TestSheet; png: Buffer }> {
    const sheet = await this.shop.testSheets.make({ ...this.about, ...order } as TestSheetOrderInput, {
      format: 'png',
    });
    const file = sheet.files.find(({ kind }) => kind === 'sheet')!;
    const opened = await this.shop.testSheets.openFile(sheet.id, file.fileName);
    return { sheet, png: readFileSync(opened.path) };
  }

  piece(
    { png, dye }: Pressed,
    reader: VirtualReader = this.scanner,
    printer = this.printer,
  ): Promise<Picture> {
    return lightOfPiece(png, 300, printer, reader, dye);
  }

  /** 300 ppi, askew by 3°, a lamp that fades, dust, noise, soft optics, 8 bits. */
  async scan(pressed: Pressed, printer = this.printer): Promise<Buffer> {
    const seen = flatbed(await this.piece(pressed, this.scanner, printer), this.scanner, {
      turnDegrees: pressed.seed % 2 ? 3 : -3,
      vignetting: 0.08,
      dust: 40,
      seed: pressed.seed,
    });
    return fileOfReader(seen, this.scanner, 'png');
  }

  /** A phone's JPEG of the piece with a card of other colourants beside it, tilted, in light of its own. */
  async photo(
    pressed: Pressed,
    phone: VirtualReader,
  ): Promise<{ jpeg: Buffer; card: { corners: [number, number][]; values: Uint8Array } }> {
    const scene = withCardBeside(await this.piece(pressed, phone), phone, pressed.seed);
    const camera: Camera = {
      widthPixels: 2600,
      heightPixels: 2400,
      tilt: 7,
      pan: -5,
      roll: 2,
      fill: 0.88,
      cast: [1, 0.96, 0.86],
      vignetting: 0.2,
      seed: pressed.seed,
    };
    const jpeg = await fileOfReader(photograph(scene.picture, camera), phone, 'phone', 94);
    const place = placeInPhotograph(scene.picture, camera);
    return { jpeg, card: { corners: scene.corners.map(([x, y]) => place(x, y)), values: scene.values } };
  }

  /** An instrument's file of that very piece, patch by patch where it lies; noise of 0.2 ΔE*ab. */
  async instrumentFile(sheetId: string, { dye, seed }: Pressed): Promise<Uint8Array> {
    const order = (await this.shop.testSheets.orderOf(sheetId))!;
    return measuredOnPiece(this.printer, dye, order, seed);
  }

  readBy(readerId: string | null, scan: Buffer, fileName: string): Promise<Reading> {
    return this.shop.readings.read(scan, {
      fileName,
      subject: 'piece',
      ...(readerId === null ? {} : { readerId }),
    });
  }

  /**
   * How far the colours of a check sheet really lie from what was asked, within reach: worked out from the printer's own
   * spectra at the printed device values, beside its own white, even press, no noise.
   */
  async truthOfCheck(sheetId: string): Promise<Spread> {
    const wanted = (await this.shop.testSheets.wantedOf(sheetId))!;
    const order = (await this.shop.testSheets.orderOf(sheetId))!;
    const white = xyzFromLab(this.printer.print([[1, 1, 1]])[0]!);
    const within = wanted.filter(({ kind }) => kind !== 'limited');
    const truth = this.printer.print(within.map(({ chosen }) => order.patches[chosen]!.rgb));
    return spreadOf(
      within.map(({ relativeLab }, i) => deltaE00(relativeLab, labFromXyz(xyzFromLab(truth[i]!), white))),
    );
  }

  /** The path's word on device colours nobody fitted on, against the printer: absolute Lab. */
  async truthOfModel(pathId: string): Promise<Spread> {
    const rgb: Triple[] = heldOut(300, 4711);
    const said = await this.shop.paths.foresee(await this.shop.paths.get(pathId), rgb);
    const truth = this.printer.print(rgb);
    return spreadOf(said.map(({ lab }, i) => deltaE00(lab, truth[i]!)));
  }

  /** How far from neutral a path's greys really come out, beside the plain driver's greys of the same lightness. */
  castsOf(greys: readonly { readonly deviceRgb: Triple }[]): { own: number; plain: number } {
    const white = xyzFromLab(this.printer.print([[1, 1, 1]])[0]!);
    const seen = (rgb: readonly Triple[]): Triple[] =>
      this.printer.print(rgb).map((lab) => labFromXyz(xyzFromLab(lab), white));
    const chroma = ([, a, b]: Triple): number => Math.hypot(a, b);
    const levels = seen(Array.from({ length: 256 }, (_, v): Triple => [v / 255, v / 255, v / 255]));
    const own = seen(greys.map(({ deviceRgb }) => deviceRgb.map((v) => v / 255) as Triple3));
    const nearest = own.map(([l]) =>
      levels.reduce((best, grey) => (Math.abs(grey[0] - l) < Math.abs(best[0] - l) ? grey : best)),
    );
    return { own: mean(own.map(chroma)), plain: mean(nearest.map(chroma)) };
  }
}

export const figures = ({ mean, p95 }: Spread): string => `${mean.toFixed(2)} (95 % ${p95.toFixed(2)})`;

export const say = (check: PathCheck): string =>
  `${check.verdict}, ${check.overall.mean.toFixed(2)} over ${check.overall.count} (95 % ${check.overall.p95.toFixed(2)}, max ${check.overall.max.toFixed(2)}), expected ${check.expectedMean.toFixed(2)}`;
