import type { Artwork, PrintSetup, SheetRequestInput } from '#contract';
import type { ArtworkShelf } from '#shop/artwork';
import type { Setups } from '#shop/catalogue';
import type { ColourPaths } from '#shop/paths';
import type { Sheets } from '#shop/sheets';
import type { Records } from '#shop/store';
import { type DemoPiece, demoArtwork } from './artwork.js';
import { inventedPrinterName, inventedPrinterProfile } from './invented-printer.js';

export interface DemoParts {
  readonly records: Records;
  readonly artwork: ArtworkShelf;
  readonly paths: ColourPaths;
  readonly setups: Setups;
  readonly sheets: Sheets;
  readonly now: () => Date;
  readonly onFault: (error: unknown) => void;
}

/**
 * Fills a shop that holds nothing of its own with the regatta: artwork, a colour path, a print setup and two made
 * sheets. Done once in a shop's life, so what a person removes stays away; cut short, it is finished the next time.
 * The shop opens also when this fails: it is only a demonstration.
 */
export async function fillDemoShop(parts: DemoParts): Promise<void> {
  if ((await parts.records.settings.get('demo')) !== undefined) return;
  if ((await parts.artwork.list()).some((artwork) => !artwork.demo)) return;
  try {
    const setup = await demoSetup(parts);
    const artwork = await demoPieces(parts);
    for (const request of demoRequests(artwork, setup)) {
      await parts.sheets.make(request, { format: 'pdf' }, { demo: true });
    }
    await parts.records.settings.put('demo', { filledAt: parts.now().toISOString() });
  } catch (error) {
    parts.onFault(error);
  }
}

/** True while demo records are there. */
export async function isDemoShop(records: Records): Promise<boolean> {
  const all = [await records.artwork.list(), await records.setups.list(), await records.colourPaths.list()];
  return all.flat().some((record) => record.demo);
}

async function demoPieces(parts: DemoParts): Promise<Record<DemoPiece['key'], Artwork>> {
  const kept: Partial<Record<DemoPiece['key'], Artwork>> = {};
  for (const piece of await demoArtwork()) {
    kept[piece.key] = await parts.artwork.add(inOneChunk(piece.bytes), piece.fileName, { demo: true });
  }
  return kept as Record<DemoPiece['key'], Artwork>;
}

async function demoSetup(parts: DemoParts): Promise<PrintSetup> {
  const path = await parts.paths.importIcc(inventedPrinterProfile(), inventedPrinterName, { demo: true });
  const setup: PrintSetup = {
    id: 'demo-studio-a4',
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
      'Size: 100 %, no fitting to the page, no borderless enlargement.',
      'Mirror: off. The sheet is mirrored already.',
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
  return parts.setups.save(setup.id, setup);
}

function demoRequests(artwork: Record<DemoPiece['key'], Artwork>, setup: PrintSetup): SheetRequestInput[] {
  return [
    {
      artworkId: artwork.coaster.id,
      blankId: 'slate-coaster-round-100',
      setupId: setup.id,
      copies: 2,
      placement: { mode: 'fill' },
    },
    {
      artworkId: artwork.mug.id,
      blankId: 'mug-straight-330ml',
      setupId: setup.id,
      copies: 1,
      placement: { mode: 'fill' },
    },
  ];
}

async function* inOneChunk(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}
