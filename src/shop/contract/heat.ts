import { z } from 'zod';
import { boundWords, idSchema, pressureSchema } from './blanks.js';
import { cautionSchema } from './cautions.js';
import { estimateSchema } from './estimate.js';

/** A question to the model of heat, in the shop's own words. */
export const heatQuestionSchema = z.object({
  blankId: idSchema,
  pressId: idSchema.optional(),
  /** True temperature; left out: the blank's recipe. */
  platenC: z.number().min(60).max(260, boundWords).optional(),
  dwellSeconds: z.number().min(1).max(3600).optional(),
  pressure: pressureSchema.optional(),
  prePressSeconds: z.number().min(0).max(120).default(0),
  /** The blank's body; left out: usual for its kind. */
  thicknessMm: z.number().min(0.05).max(60).optional(),
  blankStartC: z.number().min(-10).max(120).default(21),
  roomC: z.number().min(0).max(45).default(21),
  bothSides: z.boolean().optional(),
  /** The piece lies on the paper and heat comes through it; left out: as the steps of the blank's recipe say. */
  faceDown: z.boolean().optional(),
  /** After the press: how long is looked on. */
  coolSeconds: z.number().min(0).max(3600).default(600),
});

/** A course over time with the band in which it lies in nine of ten cases. */
const courseSchema = z.object({
  name: z.string(),
  celsius: z.array(z.number()),
  low: z.array(z.number()).nullable(),
  high: z.array(z.number()).nullable(),
});

export const heatLookSchema = z.object({
  question: heatQuestionSchema,
  /** 'The dye's place reaches 190 °C after 24 s (18 to 33), of the 60 s.' first. */
  sentences: z.array(z.string()),
  seconds: z.array(z.number()),
  /** 'dye' first; then platen, middle and back of the blank. */
  courses: z.array(courseSchema),
  /** Names of the phases, and when each begins. */
  phases: z.array(z.object({ name: z.string(), fromSeconds: z.number(), toSeconds: z.number() })),
  /** The stack from top to bottom, for drawing: the dye lies between `paper` and `coating`. */
  layers: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      thicknessMm: z.number(),
      basis: z.enum(['published', 'memory', 'guess']),
    }),
  ),
  facts: z.object({
    /** Within 10 K of the platen. */
    arrivesSeconds: estimateSchema.nullable(),
    dyePeakC: estimateSchema,
    /** Equivalent seconds at 200 °C. */
    doseSeconds: estimateSchema,
    platenSagK: z.number(),
    /** Seconds more (or less) that a platen 5 °C too cool (or hot) asks for. */
    fiveCoolerSeconds: z.number().nullable(),
    fiveHotterSeconds: z.number().nullable(),
    /** Seconds after the press until it can be touched (short contact), null when longer than looked on. */
    touchableAfterSeconds: z.number().nullable(),
    touchC: z.number(),
    pieceWh: z.number(),
    dryingSeconds: estimateSchema.nullable(),
    shockK: z.number(),
  }),
  cautions: z.array(cautionSchema),
  /** What was guessed, fitted, published. */
  assumed: z.array(z.string()),
});

/** What a press pushes with on a blank. */
export const forceQuestionSchema = z.object({
  pressId: idSchema,
  blankId: idSchema.optional(),
  /** Pressed area; left out: the blank's face. */
  areaCm2: z.number().min(0.5).max(50_000).optional(),
  /** One of the two. */
  setting: z.number().optional(),
  pressureBar: z.number().min(0.001).max(50).optional(),
});
export const forceAnswerSchema = z.object({
  setting: z.number(),
  settingUnit: z.string(),
  newtons: z.number(),
  areaCm2: z.number(),
  pressureBar: z.number(),
  pressurePsi: z.number(),
  pressureNPerCm2: z.number(),
  sentences: z.array(z.string()),
  cautions: z.array(cautionSchema),
});

export type HeatQuestion = z.input<typeof heatQuestionSchema>;
export type HeatLook = z.infer<typeof heatLookSchema>;
export type ForceQuestion = z.input<typeof forceQuestionSchema>;
export type ForceAnswer = z.infer<typeof forceAnswerSchema>;
