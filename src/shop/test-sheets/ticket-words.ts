import type { Blank, Recipe } from '#contract';
import { developBlank } from '#craft/blank';
import type { TicketRequest } from '#shop/render';
import { evennessRecipe } from './evenness-ticket.js';
import { isPressedRound } from './found-press.js';
import { couponTable } from './ladder-ticket.js';
import type { PreparedTestSheet } from './prepare-test-sheet.js';
import { pressCautions } from './press-cautions.js';

/** The press ticket of a test sheet: as for any sheet, with what is to be done when it is cool. */
export function ticketFor(
  prepared: PreparedTestSheet,
  more: Pick<TicketRequest, 'outPath' | 'picture' | 'recordUrl' | 'createdAt' | 'demo'>,
): TicketRequest {
  const { sheetId, order, blank, setup, plan, path, ppi, ladder } = prepared;
  const outline = developBlank(blank.shape);
  const isForPress = order.kind === 'ladder' || order.kind === 'evenness';
  return {
    ...more,
    sheetId,
    artworkName: ladder === null ? titles[order.kind] : `Ladder of ${ladder.coupons.length} coupons`,
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
    recipe: recipeFor(prepared),
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
    colourSentence: isForPress
      ? pressSentences[order.kind]
      : path === null
        ? 'Plain device colour, through no colour path: the sheet shows what the printer does by itself.'
        : `For the colour path “${path.name}”.`,
    testSheet: {
      pressedOn: pressedOn(prepared),
      lastSteps:
        ladder !== null && isPressedRound(blank, prepared.press) ? judgedByEye : afterwards[order.kind],
    },
    ...(isForPress ? { cautions: pressCautions(blank, prepared.press?.press ?? null) } : {}),
    ...(ladder === null ? {} : { coupons: couponTable(prepared, ladder) }),
  };
}

function pressedOn({ order, blank, press }: PreparedTestSheet): string {
  if (order.kind === 'ladder' && isPressedRound(blank, press)) return `Press each on ${blank.name}`;
  const on = blank.shape.kind === 'cylinder' ? `a flat piece coated like ${blank.name}` : blank.name;
  if (order.kind === 'ladder') return `Press each on ${on}`;
  if (order.kind === 'evenness') return `Press it on ${on}, or larger and coated alike`;
  return `Press it on ${on}`;
}

function recipeFor(prepared: PreparedTestSheet): Recipe {
  const { order, blank, press } = prepared;
  const isFlat = blank.shape.kind !== 'cylinder' || (order.kind === 'ladder' && isPressedRound(blank, press));
  const usual = isFlat ? blank.recipe : onFlatPiece(blank);
  // The marks are what the sheet is read by: cutting them away is for shirts to be worn.
  const recipe = { ...usual, steps: usual.steps.filter((step) => !/^Cut the marks away/.test(step)) };
  if (order.kind === 'ladder') {
    // Its figures are the coupons' own.
    const steps = recipe.steps.filter((step) => !step.startsWith('The figures above'));
    return { ...recipe, steps: [...ladderFirst, ...steps] };
  }
  if (order.kind === 'evenness') return evennessRecipe(recipe, press);
  return recipe;
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

const ladderFirst = ['Cut the coupons apart along the grey lines and press them one by one, as page 1 says.'];

const titles = {
  colour: 'Colour test sheet',
  'follow-up': 'Follow-up test sheet',
  check: 'Check sheet',
  grey: 'Grey sheet',
  palette: 'Palette',
  ladder: 'Ladder',
  evenness: 'Evenness sheet',
} as const;

const pressSentences = {
  ladder: 'Plain device colour: the same ink on every coupon, so that only the press differs.',
  evenness: 'Plain device colour: the same grey everywhere, so that only the press differs.',
} as const;

const scanned: readonly string[] = [
  'Let it cool wholly: colours shift while it is warm.',
  'Scan it, or photograph it straight on in even light, with all corner marks and the square code in the picture; automatic corrections off, 300 ppi, PNG or TIFF.',
  'Give the scan to Measure: it says by itself which sheet it is.',
];

const judgedByEye: readonly string[] = [
  'Let the pieces cool wholly: colours shift while they are warm.',
  'In daylight, not in the sun, mark on page 1 what black and edges look like, and enter that in Press.',
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
  ladder: [
    'Let the pieces cool wholly: colours shift while they are warm.',
    'Lay them on the scanner, several together, any way round, with a finger’s breadth between; automatic corrections off, 300 ppi, PNG or TIFF.',
    'Give the scan to Press: it knows each coupon by its marks. Without a scanner, enter what you marked on page 1.',
  ],
  evenness: [
    'Let it cool wholly: colours shift while it is warm.',
    'Scan it, with all corner marks and the square code in the picture; automatic corrections off, 300 ppi, PNG or TIFF.',
    'Give the scan to Press: it draws where the platen is behind, and says what usually does it.',
  ],
};
