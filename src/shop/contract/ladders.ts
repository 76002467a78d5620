import { z } from 'zod';
import { contentHashSchema } from './artwork.js';
import { boundWords, idSchema } from './blanks.js';
import { estimateSchema } from './estimate.js';
import { gradeSchema } from './grades.js';

const low = 0.05;
const barSchema = z.number().min(low).max(20);
const secondsSchema = z.number().min(1).max(1800);
/** True temperatures at the platen's face; above the safety bound is refused with why. */
const platenCSchema = z.number().min(100).max(260, boundWords);

export const factorKindSchema = z.enum(['time', 'temperature', 'pressure']);

/** What was, or is to be, set on the press for one coupon; temperatures are true ones. */
export const pressStepSchema = z.object({
  platenC: platenCSchema,
  dwellSeconds: secondsSchema,
  /** On the blank; left out where nobody knows. */
  pressureBar: barSchema.optional(),
});

export const pressLimitsSchema = z.object({
  platenC: z.tuple([platenCSchema, platenCSchema]),
  dwellSeconds: z.tuple([secondsSchema, secondsSchema]),
  pressureBar: z.tuple([barSchema, barSchema]).optional(),
});

/** The part of a test sheet's order that is about the ladder. */
export const ladderOrderSchema = z.object({
  /** The press it is pressed on; left out: no press is named, and set temperatures are taken as true. */
  pressId: idSchema.optional(),
  coupons: z.number().int().min(4).max(16).default(9),
  factors: z
    .array(
      z.object({
        kind: factorKindSchema,
        low: z.number().positive().optional(),
        high: z.number().positive().optional(),
      }),
    )
    .min(1)
    .max(2)
    .default([{ kind: 'time' }]),
  /** Left out: the blank's recipe. */
  start: pressStepSchema.optional(),
  /** What the blank's maker allows; left out: a usual range round the start. */
  limits: pressLimitsSchema.optional(),
  /** Side of a square coupon; left out: as small as can be read. */
  couponMm: z.number().min(20).max(200).optional(),
});

/** One coupon as planned: what to set, and what is written on it. */
export const ladderPlanCouponSchema = z.object({
  number: z.number().int(),
  step: pressStepSchema,
  /** What the press's display is to be set to for that true temperature. */
  setC: z.number(),
  /** Coupons of one number are pressed alike. */
  alike: z.number().int(),
});

/** On a test sheet of kind 'ladder'. Coupons in the order to press. */
export const ladderPlanSchema = z.object({
  kind: z.enum(['ladder', 'central composite', 'D-optimal']),
  words: z.string(),
  factors: z.array(factorKindSchema),
  start: pressStepSchema,
  limits: pressLimitsSchema,
  temperatureChanges: z.number().int(),
  /** True less set temperature of the press then; null: not known, taken as 0. */
  offsetK: z.number().nullable(),
  pressId: idSchema.nullable(),
  pressName: z.string().nullable(),
  couponMm: z.number(),
  coupons: z.array(ladderPlanCouponSchema),
});

const measured = z.object({ value: z.number(), sd: z.number() });
const triple = z.tuple([z.number(), z.number(), z.number()]);
const measuredLab = z.object({ lab: triple, sdLab: triple });

/** What a scan says of one coupon: `#craft/presswindow`'s CouponValues. */
export const couponValuesSchema = z.object({
  density: z
    .object({ black: measured, cyan: measured, magenta: measured, yellow: measured })
    .partial()
    .optional(),
  chroma: z.object({ cyan: measured, magenta: measured, yellow: measured }).partial().optional(),
  blackLab: measuredLab.optional(),
  greyLab: measuredLab.optional(),
  edgeUm: measured.optional(),
  smallText: measured.optional(),
});

export const couponByEyeSchema = z.object({
  black: z.enum(['green', 'neutral', 'brown']).optional(),
  edges: z.enum(['crisp', 'soft']).optional(),
});

export const ladderCouponSchema = ladderPlanCouponSchema.extend({
  /** What was really set, where it differs from the plan. */
  pressed: pressStepSchema.nullable(),
  values: couponValuesSchema.nullable(),
  byEye: couponByEyeSchema.nullable(),
  /** The picture its values come from. */
  pictureId: z.string().nullable(),
  /** For drawing: its patches as they would look on a screen, black, cyan, magenta, yellow, grey, bare ground; empty where not read. */
  seenHex: z.array(z.string()),
  /** Taken out by the person: spoilt, moved, pressed wrongly. */
  leftOut: z.boolean(),
  remarks: z.array(z.string()),
});

/** What a person says of coupons: judgements, real settings, which to leave out. Null takes a statement back. */
export const ladderNotesSchema = z.object({
  coupons: z
    .array(
      z.object({
        number: z.number().int().min(1).max(16),
        pressed: pressStepSchema.nullable().optional(),
        byEye: couponByEyeSchema.nullable().optional(),
        leftOut: z.boolean().optional(),
      }),
    )
    .min(1)
    .max(16),
});

export const ladderPictureSchema = z.object({
  id: z.string(),
  fileName: z.string(),
  sourceHash: contentHashSchema,
  readerId: idSchema.nullable(),
  readerName: z.string().nullable(),
  grade: gradeSchema,
  surface: z.enum(['paper', 'piece']),
  /** Numbers read from it. */
  coupons: z.array(z.number().int()),
  remarks: z.array(z.string()),
  /** All that was read from it, by content: what stands again when a later picture goes. */
  readHash: contentHashSchema.optional(),
  createdAt: z.string(),
});

export const pressWindowSchema = z.object({
  platenC: z.number(),
  setC: z.number(),
  pressureBar: z.number().nullable(),
  fromSeconds: estimateSchema,
  toSeconds: estimateSchema,
  opens: z.string(),
  closes: z.string(),
  windowProbability: z.number(),
  recipe: z.object({
    platenC: z.number(),
    setC: z.number(),
    dwellSeconds: z.number(),
    pressureBar: z.number().nullable(),
    middleSeconds: estimateSchema,
    probabilityWithin: z.number(),
    tolerance: z.object({
      shorterSeconds: z.number(),
      longerSeconds: z.number(),
      coolerK: z.number(),
      hotterK: z.number(),
    }),
  }),
  activation: z.object({
    kJPerMol: estimateSchema,
    isFitted: z.boolean(),
    basis: z.string(),
  }),
  /** True when a further coupon would not move the recipe by more than the press repeats itself. */
  isSure: z.boolean(),
  /** Coupons that would tell most, best first. */
  next: z.array(z.object({ step: pressStepSchema, setC: z.number(), words: z.string() })),
  remarks: z.array(z.string()),
  words: z.string(),
});

/** The window as a picture: over true temperature and time (or pressure and time). */
export const windowFieldSchema = z.object({
  platenC: z.array(z.number()),
  dwellSeconds: z.array(z.number()),
  /** Row by row of temperature: share of the likely worlds in which all is well there. */
  within: z.array(z.number()),
  /** Medians there: density beside its top (0..1), hue of black (− green, + brown), edge width beside its crisp limit (1 = at it). */
  densityShare: z.array(z.number()),
  blackHue: z.array(z.number().nullable()),
  edgeShare: z.array(z.number().nullable()),
});

/** Values followed over dose, for the curves under the window: median and nine-in-ten band over time at the recipe's temperature. */
export const windowCoursesSchema = z.array(
  z.object({
    id: z.string(),
    name: z.string(),
    unit: z.string(),
    dwellSeconds: z.array(z.number()),
    median: z.array(z.number()),
    low: z.array(z.number()),
    high: z.array(z.number()),
    /** The coupons' own values, carried to the recipe's temperature and pressure by the fitted dose. */
    coupons: z.array(z.object({ number: z.number().int(), dwellSeconds: z.number(), value: z.number() })),
  }),
);

/** Everything known of one ladder. Its sheet is the test sheet of the same id. */
export const ladderSchema = z.object({
  sheetId: z.string(),
  setupName: z.string(),
  blankId: idSchema,
  blankName: z.string(),
  plan: ladderPlanSchema,
  coupons: z.array(ladderCouponSchema),
  pictures: z.array(ladderPictureSchema),
  /** 'Press 200 °C for 55 s: …' or what is still wanting. */
  standing: z.string(),
  window: pressWindowSchema.nullable(),
  /** Why there is no window (yet), with what to do; null when there is one. */
  missing: z.string().nullable(),
  updatedAt: z.string(),
  demo: z.boolean().default(false),
});

/** No surface colour lies beyond; a meter's noise may, a little. */
const askedLab = z.tuple([
  z.number().min(-5).max(105),
  z.number().min(-150).max(150),
  z.number().min(-150).max(150),
]);

/** From one black patch: too little or too much, and by how much. */
export const blackQuestionSchema = z.object({
  /** Seen: by a reading's Lab, by a colour picked from a screen, or by eye. */
  black: z.union([
    z.object({ lab: askedLab, sdLab: triple.optional() }),
    z.object({ byEye: z.enum(['green', 'neutral', 'brown']) }),
  ]),
  step: pressStepSchema,
  /** This shop's own ladder to go by; left out: the latest of the blank, if any. */
  ladderId: z.string().optional(),
  blankId: idSchema.optional(),
});
export const blackAnswerSchema = z.object({
  verdict: z.enum(['under', 'right', 'over']),
  hue: z.number(),
  seconds: estimateSchema,
  kelvin: estimateSchema,
  restsOn: z.enum(['own ladder', 'common practice']),
  ladderId: z.string().nullable(),
  words: z.string(),
  remarks: z.array(z.string()),
});

export type FactorKindName = z.infer<typeof factorKindSchema>;
export type PressStepFacts = z.infer<typeof pressStepSchema>;
export type LadderPlanFacts = z.infer<typeof ladderPlanSchema>;
export type LadderCoupon = z.infer<typeof ladderCouponSchema>;
export type LadderNotes = z.input<typeof ladderNotesSchema>;
export type LadderPicture = z.infer<typeof ladderPictureSchema>;
export type PressWindowFacts = z.infer<typeof pressWindowSchema>;
export type WindowFieldFacts = z.infer<typeof windowFieldSchema>;
export type WindowCourses = z.infer<typeof windowCoursesSchema>;
export type Ladder = z.infer<typeof ladderSchema>;
export type BlackQuestion = z.input<typeof blackQuestionSchema>;
export type BlackAnswer = z.infer<typeof blackAnswerSchema>;
