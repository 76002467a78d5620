import {
  type Blank,
  type PrintSetup,
  type SheetOutputOptions,
  type SheetRequest,
  sheetOutputOptionsSchema,
  sheetRequestSchema,
} from '#contract';
import { developBlank, type FlatOutline } from '#craft/blank';
import { layOutSheet, type SheetLayout } from '#craft/sheet';
import type { ArtworkShelf, DrawableArtwork } from '#shop/artwork';
import type { Blanks, Setups } from '#shop/catalogue';
import { checked } from '#shop/validate';
import type { ColourDesk, SheetColour } from './colour.js';
import { sheetIdFor } from './sheet-key.js';

/** A request with everything it names found and laid out; no pixel has been touched. */
export interface PreparedSheet {
  readonly sheetId: string;
  readonly request: SheetRequest;
  readonly output: SheetOutputOptions;
  readonly blank: Blank;
  readonly setup: PrintSetup;
  readonly artwork: DrawableArtwork;
  readonly colour: SheetColour;
  readonly outline: FlatOutline;
  readonly bleedMm: number;
  readonly ppi: number;
  readonly layout: SheetLayout;
}

export interface PrepareParts {
  readonly blanks: Blanks;
  readonly setups: Setups;
  readonly artwork: ArtworkShelf;
  readonly colour: ColourDesk;
}

/** Errors: request.invalid, record.missing, blank.invalid, sheet.impossible, file.missing. */
export async function prepareSheet(
  parts: PrepareParts,
  requestValue: unknown,
  outputValue: unknown = {},
): Promise<PreparedSheet> {
  const request = checked(sheetRequestSchema, requestValue, 'The sheet asked for cannot be understood');
  const output = checked(sheetOutputOptionsSchema, outputValue, 'The output asked for cannot be understood');
  const [blank, setup, artwork] = await Promise.all([
    parts.blanks.get(request.blankId),
    parts.setups.get(request.setupId),
    parts.artwork.drawable(request.artworkId),
  ]);
  const colour = await parts.colour.colourFor(request, setup);
  const outline = developBlank(blank.shape);
  const bleedMm = request.bleedMm ?? blank.bleedMm;
  const sheetId = sheetIdFor({ request, output, blank, setup, iccHash: colour.path?.iccHash ?? null });
  const layout = layOutSheet({
    sheetId,
    paper: setup.paper,
    outline,
    bleedMm,
    artworkPixels: artwork.record,
    placement: request.placement,
    copies: request.copies,
    mirrorOnWriting: setup.mirroredBy === 'sheet',
    seenThrough: blank.coating.seenThrough,
    caption: `${blank.name} · ${artwork.record.fileName}`,
  });
  return {
    sheetId,
    request,
    output,
    blank,
    setup,
    artwork,
    colour,
    outline,
    bleedMm,
    ppi: request.ppi ?? setup.ppi,
    layout,
  };
}
