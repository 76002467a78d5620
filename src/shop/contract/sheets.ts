import { z } from 'zod';
import { contentHashSchema } from './artwork.js';
import { blankSchema, idSchema } from './blanks.js';
import { colourPathSchema, intentSchema, printSetupSchema } from './setups.js';

/** How the artwork is laid on the blank. Without an explicit width, `mode` decides the size. */
export const placementSchema = z.object({
  /** fill: cover face and bleed; fit: all of it inside the face; free: `scale` times the fit size. */
  mode: z.enum(['fill', 'fit', 'free']).default('fill'),
  scale: z.number().min(0.01).max(100).default(1),
  offsetXMm: z.number().min(-5000).max(5000).default(0),
  offsetYMm: z.number().min(-5000).max(5000).default(0),
  rotationDegrees: z.number().min(-360).max(360).default(0),
});

/** Everything a sheet is made from; a sheet is a pure function of this and the records it names. */
export const sheetRequestSchema = z.object({
  artworkId: contentHashSchema,
  blankId: idSchema,
  setupId: idSchema,
  placement: placementSchema.prefault({}),
  /** How many of the same piece, stepped over the sheet. */
  copies: z.number().int().min(1).max(500).default(1),
  /** Overrides of the setup, for this sheet. */
  intent: intentSchema.optional(),
  blackPointCompensation: z.boolean().optional(),
  ppi: z.number().int().min(72).max(1200).optional(),
  bleedMm: z.number().min(0).max(50).optional(),
});

export const checkLevelSchema = z.enum(['stop', 'look', 'note']);

/** One thing looked at before the sheet. `stop` means the sheet would be wrong; it can still be previewed. */
export const checkSchema = z.object({
  code: z.string(),
  level: checkLevelSchema,
  title: z.string(),
  detail: z.string(),
  /** What to do, as an instruction. */
  remedy: z.string(),
  value: z.number().nullable(),
  unit: z.string().nullable(),
});

export const rectMmSchema = z.object({
  xMm: z.number(),
  yMm: z.number(),
  widthMm: z.number(),
  heightMm: z.number(),
});

/** What a proposed sheet looks like, before it is made. */
export const sheetProposalSchema = z.object({
  request: sheetRequestSchema,
  /** 'Ready to print. Two things to look at.' */
  standing: z.string(),
  checks: z.array(checkSchema),
  effectivePpi: z.number(),
  sheetWidthMm: z.number(),
  sheetHeightMm: z.number(),
  piecesPlaced: z.number().int(),
  trims: z.array(rectMmSchema),
  trimForm: z.enum(['rectangle', 'ellipse']),
  trimCornerRadiusMm: z.number(),
  safeMm: z.number(),
  bleedMm: z.number(),
  /** Artwork size and place on the first piece, from the centre of its trim. */
  artwork: z.object({
    widthMm: z.number(),
    heightMm: z.number(),
    centreXMm: z.number(),
    centreYMm: z.number(),
    rotationDegrees: z.number(),
  }),
  colour: z.object({
    calibrated: z.boolean(),
    sentence: z.string(),
    pathName: z.string().nullable(),
    intent: intentSchema,
    blackPointCompensation: z.boolean(),
    /** Share of the picture's pixels whose colour the path cannot reach (ΔE00 over the stated threshold), 0..1. */
    unreachableShare: z.number().nullable(),
    thresholdDeltaE00: z.number().nullable(),
    /** The worst-hit colours, most area first. */
    unreachable: z.array(
      z.object({ wantedHex: z.string(), nearestHex: z.string(), deltaE00: z.number(), share: z.number() }),
    ),
  }),
});

export const outputFormatSchema = z.enum(['pdf', 'png', 'tiff']);
export const sheetOutputOptionsSchema = z.object({
  format: outputFormatSchema.default('pdf'),
  /** TIFF and PNG only. */
  bitsPerSample: z.union([z.literal(8), z.literal(16)]).default(8),
  /**
   * 'device': plain device RGB, for the route the path was measured on.
   * 'tagged': the same pixels carrying the profile, for a RIP that asks for one.
   */
  colourTag: z.enum(['device', 'tagged']).default('device'),
});

export const sheetFileSchema = z.object({
  kind: z.enum(['sheet', 'ticket']),
  format: outputFormatSchema,
  fileName: z.string(),
  contentHash: contentHashSchema,
  bytes: z.number().int(),
});

/** A made sheet as recorded. */
export const sheetSchema = z.object({
  id: z.string(),
  request: sheetRequestSchema,
  output: sheetOutputOptionsSchema,
  blankName: z.string(),
  setupName: z.string(),
  artworkName: z.string(),
  checks: z.array(checkSchema),
  mirroredBy: z.enum(['sheet', 'driver']),
  widthMm: z.number(),
  heightMm: z.number(),
  ppi: z.number(),
  calibrated: z.boolean(),
  colourSentence: z.string(),
  files: z.array(sheetFileSchema),
  createdAt: z.string(),
  demo: z.boolean().default(false),
});

/** The records a sheet was made from, as they were then. */
export const sheetSnapshotSchema = z.object({
  blank: blankSchema,
  setup: printSetupSchema,
  colourPath: colourPathSchema.nullable(),
});

export type SheetSnapshot = z.infer<typeof sheetSnapshotSchema>;
export type Placement = z.infer<typeof placementSchema>;
export type SheetRequest = z.infer<typeof sheetRequestSchema>;
export type SheetRequestInput = z.input<typeof sheetRequestSchema>;
export type Check = z.infer<typeof checkSchema>;
export type SheetProposal = z.infer<typeof sheetProposalSchema>;
export type OutputFormat = z.infer<typeof outputFormatSchema>;
export type SheetOutputOptions = z.infer<typeof sheetOutputOptionsSchema>;
export type Sheet = z.infer<typeof sheetSchema>;
export type SheetFile = z.infer<typeof sheetFileSchema>;
