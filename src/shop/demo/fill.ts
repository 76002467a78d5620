import type { Artwork, PrintSetup, SheetRequestInput, TestSheetOrderInput } from '#contract';
import { isProblem } from '#craft/problem';
import type { ArtworkShelf } from '#shop/artwork';
import type { Setups } from '#shop/catalogue';
import type { ColourPaths } from '#shop/paths';
import type { Presses } from '#shop/presses';
import type { Sheets } from '#shop/sheets';
import type { Records } from '#shop/store';
import type { TestSheets } from '#shop/test-sheets';
import { demoArtwork, demoFileNames } from './artwork.js';
import { inventedPrinterName, inventedPrinterProfile } from './invented-printer.js';
import { demoPress, demoPressSheets } from './press.js';

export interface DemoParts {
  readonly records: Records;
  readonly artwork: ArtworkShelf;
  readonly paths: ColourPaths;
  readonly setups: Setups;
  readonly presses: Presses;
  readonly sheets: Sheets;
  readonly testSheets: TestSheets;
  readonly now: () => Date;
  readonly onFault: (error: unknown) => void;
}

/**
 * Fills a shop that holds nothing of its own with the regatta: artwork, a colour path, a print setup, and (in a second
 * step, since that takes some seconds) two made sheets and test sheets, one of each that examples/ has a scan of. Each step is done once in
 * a shop's life, so what a person removes stays away; cut short, it is finished the next time. The shop works also when this fails: it is only a
 * demonstration.
 */
export class DemoShop {
  constructor(private readonly parts: DemoParts) {}

  /** Artwork, colour path, print setup and press. */
  async fill(): Promise<void> {
    await this.once('demo', async () => {
      if ((await this.parts.artwork.list()).some((artwork) => !artwork.demo)) return;
      await demoPieces(this.parts);
      await demoSetup(this.parts);
    });
    return this.once('demo-press', async () => {
      // A shop that has outgrown the demo, or was opened before there was a press in it, is left alone.
      const { artwork, records } = this.parts;
      if ((await artwork.list()).some((piece) => !piece.demo)) return;
      if ((await records.setups.get(demoSetupId)) !== undefined) await demoPress(this.parts.presses);
    });
  }

  /** The made sheets. Stopped by `signal`, they are made another time. */
  async makeSheets(signal: AbortSignal): Promise<void> {
    await this.once('demo-test-sheet', async () => {
      const { setups, blanks } = this.parts.records;
      const named = [await setups.get(demoSetupId), await blanks.get(demoTestSheet.blankId)];
      if (named.includes(undefined)) return;
      await this.parts.testSheets.make(demoTestSheet, { format: 'pdf' }, { demo: true, signal });
    });
    await this.once('demo-press-sheets', async () => {
      for (const order of demoPressSheets(demoSetupId)) {
        const { setups, blanks } = this.parts.records;
        const named = [await setups.get(demoSetupId), await blanks.get(order.blankId)];
        if (named.includes(undefined)) continue;
        await this.parts.testSheets.make(order, { format: 'pdf' }, { demo: true, signal });
      }
    });
    await this.once('demo-sheets', async () => {
      const setup = await this.parts.records.setups.get(demoSetupId);
      const artwork = (await this.parts.artwork.list()).filter((piece) => piece.demo);
      if (setup === undefined || artwork.length === 0) return;
      for (const request of demoRequests(artwork, setup)) {
        await this.parts.sheets.make(request, { format: 'pdf' }, { demo: true, signal });
      }
    });
  }

  private async once(key: string, work: () => Promise<void>): Promise<void> {
    try {
      if ((await this.parts.records.settings.get(key)) !== undefined) return;
      await work();
      await this.parts.records.settings.put(key, { doneAt: this.parts.now().toISOString() });
    } catch (error) {
      if (isProblem(error) && error.code === 'job.cancelled') return;
      if ((error as Error | null)?.name === 'AbortError') return;
      this.parts.onFault(error);
    }
  }
}

/** True while demo records are there. */
export async function isDemoShop(records: Records): Promise<boolean> {
  const all = await Promise.all([
    records.artwork.list(),
    records.setups.list(),
    records.colourPaths.list(),
    records.presses.list(),
  ]);
  return all.flat().some((record) => record.demo);
}

async function demoPieces(parts: DemoParts): Promise<void> {
  for (const piece of await demoArtwork()) {
    await parts.artwork.add(inOneChunk(piece.bytes), piece.fileName, { demo: true });
  }
}

const demoSetupId = 'demo-studio-a4';

async function demoSetup(parts: DemoParts): Promise<void> {
  const path = await parts.paths.importIcc(inventedPrinterProfile(), inventedPrinterName, { demo: true });
  const setup: PrintSetup = {
    id: demoSetupId,
    name: 'Demo: the studio’s A4 printer',
    printer: 'An invented A4 printer of an invented studio',
    ink: 'Invented sublimation ink',
    paper: {
      name: 'Invented sublimation paper, A4',
      widthMm: 210,
      heightMm: 297,
      marginMm: 3,
      printSide: 'the whiter side',
    },
    driverSettings: [
      'Borderless: off; it enlarges the page.',
      'Quality: high; both-way (fast) printing off.',
      'Colour: leave the numbers alone, always the same choice.',
    ],
    ppi: 300,
    mirroredBy: 'sheet',
    colourPathId: path.id,
    intent: 'relative',
    blackPointCompensation: true,
    note: 'Demo: printer, ink, paper and colour path are invented, to show what a known colour path does. Do not print with it.',
    demo: true,
  };
  await parts.setups.save(setup.id, setup);
}

/** Always the same sheet, so that simulated scans of it can lie in examples/. */
export const demoTestSheet: TestSheetOrderInput = {
  kind: 'colour',
  setupId: demoSetupId,
  blankId: 'glass-board-280x390',
  patches: 150,
  seed: 2026,
};

function demoRequests(artwork: readonly Artwork[], setup: PrintSetup): SheetRequestInput[] {
  const wanted = [
    { fileName: demoFileNames.coaster, blankId: 'slate-coaster-round-100', copies: 2 },
    { fileName: demoFileNames.mug, blankId: 'mug-straight-330ml', copies: 1 },
  ];
  return wanted.flatMap(({ fileName, blankId, copies }) =>
    artwork
      .filter((piece) => piece.fileName === fileName)
      .map((piece) => ({
        artworkId: piece.id,
        blankId,
        setupId: setup.id,
        copies,
        placement: { mode: 'fill' as const },
      })),
  );
}

async function* inOneChunk(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}
