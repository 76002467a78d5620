import { z } from 'zod';
import { contentHashSchema } from './artwork.js';
import { blankSchema, idSchema, sizeMm } from './blanks.js';
import { evennessOrderSchema } from './evenness.js';
import { ladderOrderSchema, ladderPlanSchema } from './ladders.js';
import { colourPathSchema, printSetupSchema } from './setups.js';
import { sheetFileSchema, sheetOutputOptionsSchema } from './sheets.js';

/** What the sheet is pressed on; cloth wants larger patches. */
export const sheetMaterialSchema = z.enum(['hard', 'fabric']);
export const testSheetKindSchema = z.enum([
  'colour',
  'follow-up',
  'check',
  'grey',
  'palette',
  'ladder',
  'evenness',
]);

const hexSchema = z.string().regex(/^#[0-9a-f]{6}$/i, 'six hexadecimal digits after #');

const everyOrder = {
  setupId: idSchema,
  /** The blank on which it is pressed: its recipe, its coating. */
  blankId: idSchema,
  /** The printed sheet; left out: as large as the setup's paper. */
  widthMm: sizeMm.optional(),
  heightMm: sizeMm.optional(),
  /** Left out: fabric for textiles, hard for all else. */
  material: sheetMaterialSchema.optional(),
};

/** What a person asks for. */
export const testSheetOrderSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('colour'),
    ...everyOrder,
    patches: z.number().int().min(30).max(900).default(150),
    /** Left out: chosen by the shop. The same seed gives the same patches and places. */
    seed: z
      .number()
      .int()
      .min(0)
      .max(2 ** 21 - 1)
      .optional(),
  }),
  /** More patches where the path is least sure, or where the colours of an artwork lie. */
  z.object({
    kind: z.literal('follow-up'),
    ...everyOrder,
    pathId: idSchema,
    patches: z.number().int().min(30).max(300).default(40),
    towards: z.enum(['doubt', 'artwork']).default('doubt'),
    /** Wanted when towards is 'artwork'. */
    artworkId: contentHashSchema.optional(),
  }),
  /** Colours printed through a path, to see whether they come out as they should. */
  z.object({
    kind: z.literal('check'),
    ...everyOrder,
    pathId: idSchema,
    patches: z.number().int().min(30).max(90).default(36),
  }),
  /** Near-neutrals and tone steps, judged by eye beside a grey card. */
  z.object({
    kind: z.literal('grey'),
    ...everyOrder,
    /** The path that is to be put right; left out: the plain driver. */
    pathId: idSchema.optional(),
  }),
  /** Named swatches as they come out, to choose colours from. */
  z.object({
    kind: z.literal('palette'),
    ...everyOrder,
    pathId: idSchema,
    /** Left out or empty: a palette over all that the path reaches. */
    colours: z
      .array(z.object({ hex: hexSchema, name: z.string().max(40).default('') }))
      .max(200)
      .default([]),
  }),
  /** Coupons to be pressed in steps of time, temperature or pressure. */
  z.object({ kind: z.literal('ladder'), ...everyOrder, ...ladderOrderSchema.shape }),
  /** One middle tone over the whole platen. */
  z.object({ kind: z.literal('evenness'), ...everyOrder, ...evennessOrderSchema.shape }),
]);

/** Near-neutrals of one lightness: which is the most neutral? */
export const greyRowSchema = z.object({
  /** 0..1: the device grey round which the row's candidates lie. */
  level: z.number(),
  candidates: z.array(
    z.object({
      label: z.string(),
      deviceRgb: z.tuple([z.number(), z.number(), z.number()]),
      aStep: z.number(),
      bStep: z.number(),
    }),
  ),
});
/** Steps of tone: the first that can be told from black or white, the one like the grey card. */
export const toneRowSchema = z.object({
  question: z.enum(['from-black', 'from-white', 'like-card']),
  steps: z.array(z.object({ label: z.string(), deviceRgb: z.tuple([z.number(), z.number(), z.number()]) })),
});

export const testSheetSchema = z.object({
  /** The sheet's id, as its marks bear it. */
  id: z.string(),
  kind: testSheetKindSchema,
  order: testSheetOrderSchema,
  output: sheetOutputOptionsSchema,
  material: sheetMaterialSchema,
  widthMm: z.number(),
  heightMm: z.number(),
  ppi: z.number(),
  /** Colours asked for, without controls. */
  patches: z.number().int(),
  patchMm: z.number(),
  mirroredBy: z.enum(['sheet', 'driver']),
  setupName: z.string(),
  blankName: z.string(),
  pathName: z.string().nullable(),
  /** Grey sheets only. */
  grey: z.object({ rows: z.array(greyRowSchema), tone: z.array(toneRowSchema) }).nullable(),
  /** Ladders only: what to press, in order. */
  ladder: ladderPlanSchema.nullable().default(null),
  /** Evenness sheets only: cells, and the press it is for. */
  evenness: z
    .object({ columns: z.number().int(), rows: z.number().int(), pressId: idSchema.nullable() })
    .nullable()
    .default(null),
  files: z.array(sheetFileSchema),
  createdAt: z.string(),
  demo: z.boolean().default(false),
});

/** The records it was made from, as they were then: what a path made from it belongs to. */
export const testSheetSnapshotSchema = z.object({
  blank: blankSchema,
  setup: printSetupSchema,
  colourPath: colourPathSchema.nullable(),
});

export const testSheetProposalSchema = z.object({
  /** 'Ready to print: 150 patches of 7.2 mm on A4.' or what is in the way. */
  standing: z.string(),
  possible: z.boolean(),
  widthMm: z.number(),
  heightMm: z.number(),
  material: sheetMaterialSchema,
  patches: z.number().int(),
  patchMm: z.number().nullable(),
  /** The most patches that this sheet holds. */
  mostPatches: z.number().int(),
  remarks: z.array(z.string()),
  /** Ladders only, where possible: the coupons as they would be pressed. */
  ladder: ladderPlanSchema.nullable().default(null),
});

export type SheetMaterialName = z.infer<typeof sheetMaterialSchema>;
export type TestSheetKind = z.infer<typeof testSheetKindSchema>;
export type TestSheetOrder = z.infer<typeof testSheetOrderSchema>;
export type TestSheetOrderInput = z.input<typeof testSheetOrderSchema>;
export type TestSheet = z.infer<typeof testSheetSchema>;
export type TestSheetSnapshot = z.infer<typeof testSheetSnapshotSchema>;
export type TestSheetProposal = z.infer<typeof testSheetProposalSchema>;
