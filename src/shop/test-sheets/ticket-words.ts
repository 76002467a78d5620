import type { Blank, Recipe } from '#contract';
import { developBlank } from '#craft/blank';
import type { TicketRequest } from '#shop/render';
import type { PreparedTestSheet } from './prepare-test-sheet.js';

/** The press ticket of a test sheet: as for any sheet, with what is to be done when it is cool. */
export function ticketFor(
  prepared: PreparedTestSheet,
  more: Pick<TicketRequest, 'outPath' | 'picture' | 'recordUrl' | 'createdAt' | 'demo'>,
): TicketRequest {
  const { sheetId, order, blank, setup, plan, path, ppi } = prepared;
  const outline = developBlank(blank.shape);
  return {
    ...more,
    sheetId,
    artworkName: titles[order.kind],
    blank: {
      name: blank.name,
      material: blank.material,
      side: blank.coating.side,
      // The marks of a test sheet always read backwards on the paper, whatever it is pressed on.
      seenThrough: false,
      widthMm: outline.widthMm,
      heightMm: outline.heightMm,
    },
    copies: 1,
    recipe: blank.shape.kind === 'cylinder' ? onFlatPiece(blank) : blank.recipe,
    setup: {
      name: setup.name,
      printer: setup.printer,
      ink: setup.ink,
      paper: setup.paper.name,
      printSide: setup.paper.printSide,
      driverSettings: setup.driverSettings,
      mirroredBy: setup.mirroredBy,
      ppi,
    },
    sheetWidthMm: plan.widthMm,
    sheetHeightMm: plan.heightMm,
    colourSentence:
      path === null
        ? 'Plain device colour, through no colour path: the sheet shows what the printer does by itself.'
        : `For the colour path “${path.name}”.`,
    testSheet: {
      pressedOn:
        blank.shape.kind === 'cylinder'
          ? `Press it on a flat piece coated like ${blank.name}`
          : `Press it on ${blank.name}`,
      lastSteps: afterwards[order.kind],
    },
  };
}

/** A chart is read flat, so it is pressed flat, whatever the steps for the round piece are. */
const onFlatPiece = ({ recipe, name }: Blank): Recipe => ({
  ...recipe,
  steps: [
    `The figures above are those of ${name}. For a flat piece of the same coating its maker’s temperature, time and pressure come first.`,
    'Wipe the piece with a lint-free cloth. Lay the paper, printed side down, on the coated face and hold it with heat tape.',
    'Close the press with even pressure and start the time.',
    'Take it out with heat gloves, peel the paper and let the piece cool on a heat-proof rack.',
  ],
});

const titles = {
  colour: 'Colour test sheet',
  'follow-up': 'Follow-up test sheet',
  check: 'Check sheet',
  grey: 'Grey sheet',
  palette: 'Palette',
} as const;

const scanned: readonly string[] = [
  'Let it cool wholly: colours shift while it is warm.',
  'Scan it, or photograph it straight on in even light, with all corner marks and the square code in the picture; automatic corrections off, 300 ppi, PNG or TIFF.',
  'Give the scan to Measure: it says by itself which sheet it is.',
];

const afterwards: Readonly<Record<keyof typeof titles, readonly string[]>> = {
  colour: scanned,
  'follow-up': scanned,
  check: scanned,
  grey: [
    'Let it cool wholly: colours shift while it is warm.',
    'Look at it beside a grey card in daylight, not in the sun, and enter the most neutral of each row in Measure.',
  ],
  palette: [
    'Let it cool wholly, and choose colours from the pressed piece, not from the paper: the paper looks dull.',
  ],
};
