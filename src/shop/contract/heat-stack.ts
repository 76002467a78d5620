import { z } from 'zod';

/** Any stack, described layer by layer. What can be at all is checked by the model itself, which names what cannot. */

const celsiusSchema = z.number().min(-273).max(1000);
const resistanceSchema = z.number().min(0).max(100);
const name = z.string().min(1).max(60);

/** One figure, or straight lines between points of time within the phase. */
const courseOf = (value: z.ZodNumber) =>
  z.union([
    value,
    z
      .array(z.object({ atSeconds: z.number().min(0), value }))
      .min(1)
      .max(200),
  ]);

/** A material by its id from the list (`steel` is none: `stainless-steel` is), or with its own figures. */
export const stackMaterialSchema = z.union([
  z.string().min(1).max(40),
  z.object({
    name,
    conductivityWPerMK: z.number(),
    densityKgPerM3: z.number(),
    heatCapacityJPerKgK: z.number(),
    emissivity: z.number().default(0.9),
  }),
]);

export const stackLayerSchema = z.object({
  id: name,
  material: stackMaterialSchema,
  thicknessMm: z.number(),
  /** Left out: the room's. */
  startC: celsiusSchema.optional(),
  /** Resistance of the joint above this layer, m²K/W. */
  jointM2KPerW: resistanceSchema.default(0),
  /** One temperature for the whole layer: thin shells. */
  lumped: z.boolean().default(false),
  /** A pad or cover that keeps its warmth from piece to piece. */
  ofPress: z.boolean().default(false),
});

/** Figures per m² of plate; left out: those of a usual press. */
export const stackPlatenSchema = z.object({
  setC: celsiusSchema,
  startC: celsiusSchema.optional(),
  heatCapacityJPerM2K: z.number().optional(),
  maxWPerM2: z.number().optional(),
  bandK: z.number().optional(),
  lossWPerM2K: z.number().optional(),
});

export const stackSideSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('platen'), jointM2KPerW: resistanceSchema.optional() }),
  z.object({
    kind: z.literal('fixed'),
    celsius: courseOf(celsiusSchema),
    jointM2KPerW: resistanceSchema.optional(),
  }),
  z.object({ kind: z.literal('flux'), wPerM2: courseOf(z.number()) }),
  z.object({
    kind: z.literal('air'),
    airC: courseOf(celsiusSchema),
    hWPerM2K: z.number(),
    emissivity: z.number().optional(),
    surroundingsC: courseOf(celsiusSchema).optional(),
  }),
  z.object({ kind: z.literal('insulated') }),
]);

export const heatStackSchema = z.object({
  title: z.string().max(120).default(''),
  roomC: z.number().default(21),
  /** Flat, or round with the outer radius of one layer. */
  shape: z
    .discriminatedUnion('kind', [
      z.object({ kind: z.literal('flat') }),
      z.object({ kind: z.enum(['cylinder', 'sphere']), radiusMm: z.number(), ofLayer: name }),
    ])
    .default({ kind: 'flat' }),
  /** From the upper (or outer) face inwards. */
  layers: z.array(stackLayerSchema).min(1).max(20),
  upperPlaten: stackPlatenSchema.optional(),
  lowerPlaten: stackPlatenSchema.optional(),
  phases: z
    .array(
      z.object({
        name,
        seconds: z.number(),
        above: stackSideSchema,
        below: stackSideSchema,
        /** Which layers lie there; left out: all. */
        layers: z.array(name).max(20).optional(),
        freshPiece: z.boolean().optional(),
      }),
    )
    .min(1)
    .max(50),
  /** Places followed: a layer, and how deep in it (0 its upper face, 1 its lower). Left out: the middle of each layer. */
  follow: z
    .array(z.object({ name, layer: name, depth: z.number() }))
    .min(1)
    .max(20)
    .optional(),
  /** Where the dye goes: its dose in this phase (left out: the whole run). */
  dye: z
    .object({
      follow: name,
      phase: name.optional(),
      activationKJPerMol: z.number().min(1).max(400).default(90),
      referenceC: z.number().min(100).max(260).default(200),
    })
    .optional(),
  /** Times in the answer. */
  points: z.number().int().min(2).max(2000).default(241),
});

export const heatCurveSchema = z.object({
  title: z.string(),
  seconds: z.array(z.number()),
  /** Places followed, then platens; null while a layer is not there. */
  courses: z.array(
    z.object({
      name: z.string(),
      celsius: z.array(z.number().nullable()),
      peakC: z.number().nullable(),
      peakSeconds: z.number().nullable(),
      endC: z.number().nullable(),
    }),
  ),
  phases: z.array(z.object({ name: z.string(), fromSeconds: z.number(), toSeconds: z.number() })),
  /** Equivalent seconds at the reference temperature; null where no dye was named. */
  dose: z.object({ seconds: z.number(), referenceC: z.number(), activationKJPerMol: z.number() }).nullable(),
  /** J per m² of the reference face over the whole run; `closure` is what the account misses, over what crossed. */
  energy: z.object({
    heatersJPerM2: z.number(),
    platenLossJPerM2: z.number(),
    aboveJPerM2: z.number(),
    belowJPerM2: z.number(),
    storedJPerM2: z.number(),
    closure: z.number(),
  }),
  materials: z.array(
    z.object({
      name: z.string(),
      basis: z.enum(['published', 'memory', 'guess', 'given']),
      source: z.string(),
    }),
  ),
  sentences: z.array(z.string()),
});

export type HeatStackInput = z.input<typeof heatStackSchema>;
export type HeatStack = z.infer<typeof heatStackSchema>;
export type HeatCurve = z.infer<typeof heatCurveSchema>;
