import { z } from 'zod';

export const sizeMm = z.number().positive().max(6000);
export const idSchema = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,63}$/, 'lower-case letters, digits and hyphens, at most 64');

export const pressureSchema = z.enum(['light', 'medium', 'firm']);

/** Nothing is pressed hotter; why is part of the refusal. */
export const boundWords = 'must be 230 or less: hotter, sheets and coatings give off harmful vapour';
export const atMostBoundC = z.number().max(230, boundWords);

/** Temperature, time and pressure with the steps round them. `basis` says what it rests on. */
export const recipeSchema = z.object({
  platenC: atMostBoundC.min(120),
  dwellSeconds: z.number().int().min(5).max(1800),
  pressure: pressureSchema,
  steps: z.array(z.string().min(1).max(300)).max(20),
  basis: z.string().min(1).max(300),
});

export const blankShapeSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('rectangle'),
    widthMm: sizeMm,
    heightMm: sizeMm,
    cornerRadiusMm: z.number().min(0).max(1000),
  }),
  z.object({ kind: z.literal('ellipse'), widthMm: sizeMm, heightMm: sizeMm }),
  z.object({
    kind: z.literal('cylinder'),
    diameterMm: z.number().min(10).max(1000),
    heightMm: sizeMm,
    gapMm: z.number().min(0).max(500),
    handle: z.boolean(),
  }),
]);

export const blankSchema = z.object({
  id: idSchema,
  name: z.string().min(1).max(120),
  material: z.enum(['ceramic', 'glass', 'slate', 'metal', 'wood-board', 'plastic', 'textile', 'other']),
  shape: blankShapeSchema,
  /** How far one blank may differ from the next, ± mm. */
  toleranceMm: z.number().min(0).max(50),
  bleedMm: z.number().min(0).max(50),
  /** Keep lettering and faces at least this far inside the edge. */
  safeMm: z.number().min(0).max(100),
  coating: z.object({
    /** polymer: a clear polyester coat; fibre: polyester cloth; none: nothing for the dye to stay in. */
    kind: z.enum(['polymer', 'fibre', 'none']),
    /** Which face takes the dye, in words a person at the press can act on. */
    side: z.string().min(1).max(200),
    /** Coated on the back and looked at through the (glass) piece: the picture must not come out mirrored there. */
    seenThrough: z.boolean().optional(),
  }),
  /** Share of polyester in a textile, percent; null for other materials. */
  polyesterPercent: z.number().min(0).max(100).nullable(),
  recipe: recipeSchema,
  note: z.string().max(500).default(''),
  demo: z.boolean().default(false),
});

export type Recipe = z.infer<typeof recipeSchema>;
export type Blank = z.infer<typeof blankSchema>;
