import { z } from 'zod';
import { atMostBoundC, idSchema } from './blanks.js';
import { estimateSchema } from './estimate.js';

export const pressKindSchema = z.enum(['flat', 'mug', 'oven']);

/** How a press makes its force: `#craft/force`'s drives. */
export const pressDriveSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('air-cylinder'),
    boreMm: z.number().min(5).max(1000),
    rodMm: z.number().min(0).max(950).optional(),
    cylinders: z.number().int().min(1).max(16).optional(),
    leverRatio: z.number().min(0.01).max(100).optional(),
    lossShare: z.number().min(0).max(0.9).optional(),
    platenKg: z.number().min(0).max(500).optional(),
  }),
  z.object({
    kind: z.literal('spring'),
    newtonsPerMm: z.number().min(0.01).max(1e5),
    mmPerTurn: z.number().min(0.01).max(100),
    touchesAtTurns: z.number().min(-100).max(100).optional(),
    leverRatio: z.number().min(0.01).max(100).optional(),
  }),
  /** Force weighed at some settings, on a bathroom scale under a board, cold. */
  z.object({
    kind: z.literal('weighed'),
    points: z
      .array(z.object({ setting: z.number(), newtons: z.number().min(0).max(1e6) }))
      .min(2)
      .max(30),
  }),
]);

/** A heat press, mug press or oven of the shop. */
export const pressSchema = z.object({
  id: idSchema,
  name: z.string().min(1).max(120),
  kind: pressKindSchema,
  /** The heated face; of a mug press the wrap laid flat; of an oven its floor. */
  platenWidthMm: z.number().min(30).max(5000),
  platenDepthMm: z.number().min(30).max(5000),
  /** 'both': heated from below too. */
  heatedFrom: z.enum(['above', 'both']).default('above'),
  /** From its plate; null where nobody looked. */
  watts: z.number().min(20).max(100_000).nullable().default(null),
  /** Null: its force is not known. */
  drive: pressDriveSchema.nullable().default(null),
  note: z.string().max(500).default(''),
  demo: z.boolean().default(false),
});

/** Temperatures of a platen measured at the points of a grid, as they are typed in. */
export const platenCheckInputSchema = z.object({
  /** What the press's display was set to. */
  setC: atMostBoundC.min(40),
  /** probe: a thermocouple pressed between pads · strips: temperature-indicating strips · infra-red: from a distance */
  method: z.enum(['probe', 'strips', 'infra-red']),
  /** Infra-red only: the emissivity its instrument was set to. */
  emissivitySet: z.number().min(0.1).max(1).optional(),
  /** ± of the instrument as its maker states it, K; left out: usual for the method. */
  instrumentK: z.number().min(0.1).max(30).optional(),
  columns: z.number().int().min(1).max(9),
  rows: z.number().int().min(1).max(9),
  /** Row by row as one stands before the press, back row first; null where none was taken. */
  celsius: z.array(z.number().min(20).max(300).nullable()).min(1).max(81),
  note: z.string().max(500).default(''),
});

/** One thing found on a map of a platen, of temperature or of colour. */
export const unevennessSchema = z.object({
  /** tilt: one side against the other · rim: all edges · spot: one place · even: nothing beyond chance */
  kind: z.enum(['tilt', 'rim', 'spot', 'even']),
  /** 'The front left is 6 °C cooler than the back right.' */
  words: z.string(),
  /** What usually does it, and what to do: common practice. */
  likely: z.string(),
  /** From one end to the other, edge against middle, or spot against its surroundings; kelvin or ΔE00. */
  strength: estimateSchema,
  unit: z.enum(['K', 'ΔE00']),
  /** 0..1 across (left to right) and along (back to front); null where it is everywhere. */
  at: z.object({ across: z.number(), along: z.number() }).nullable(),
});

export const platenCheckSchema = platenCheckInputSchema.extend({
  id: z.string(),
  pressId: idSchema,
  /** True temperature less what was set, over the platen; the instrument's own doubt included. */
  offsetK: estimateSchema,
  /** Hottest less coolest place of the smooth map. */
  spreadK: z.number(),
  /** True temperatures over the platen, row by row, finer than the readings. */
  map: z.object({ columns: z.number().int(), rows: z.number().int(), celsius: z.array(z.number()) }),
  findings: z.array(unevennessSchema),
  /** 'The platen is 4 °C cooler than it says: set 204 for 200.' first. */
  sentences: z.array(z.string()),
  createdAt: z.string(),
});

export type PressKind = z.infer<typeof pressKindSchema>;
export type Press = z.infer<typeof pressSchema>;
export type PressInput = z.input<typeof pressSchema>;
export type PlatenCheckInput = z.input<typeof platenCheckInputSchema>;
export type PlatenCheck = z.infer<typeof platenCheckSchema>;
export type Unevenness = z.infer<typeof unevennessSchema>;
