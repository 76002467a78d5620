import { z } from 'zod';
import { blankSchema, idSchema } from './blanks.js';
import { pathMeasurementSchema } from './path-measurement.js';

export const intentSchema = z.enum(['perceptual', 'relative', 'saturation']);

/** The whole route from file to paper: printer, its settings, ink, paper. */
export const printSetupSchema = z.object({
  id: idSchema,
  name: z.string().min(1).max(120),
  printer: z.string().min(1).max(120),
  ink: z.string().min(1).max(120),
  paper: z.object({
    name: z.string().min(1).max(120),
    widthMm: z.number().min(50).max(5080),
    heightMm: z.number().min(50).max(5080),
    /** Not printable at each edge. */
    marginMm: z.number().min(0).max(50),
    /** A roll: heightMm is the most that may be drawn off; each sheet is only as long as its pieces need. */
    roll: z.boolean().optional(),
    printSide: z.string().min(1).max(200),
  }),
  /** Driver settings the person must choose, in words; part of the route the colour path was measured on. */
  driverSettings: z.array(z.string().min(1).max(200)).max(20),
  ppi: z.number().int().min(72).max(1200),
  /** Who mirrors. 'sheet': this program does and the driver must not. 'driver': the other way round. */
  mirroredBy: z.enum(['sheet', 'driver']),
  /** The colour path used, or null: pixels pass as sRGB and colour is not calibrated. */
  colourPathId: idSchema.nullable(),
  intent: intentSchema,
  blackPointCompensation: z.boolean(),
  note: z.string().max(500).default(''),
  demo: z.boolean().default(false),
});

export type PrintSetup = z.infer<typeof printSetupSchema>;

export const colourPathSchema = z.object({
  id: idSchema,
  name: z.string().min(1).max(120),
  /** How the path came to be: an ICC file brought in, patches that were measured, or a grey sheet judged by eye. */
  origin: z.enum(['imported', 'measured', 'by-eye']),
  iccHash: z.string(),
  description: z.string(),
  iccVersion: z.string(),
  deviceClass: z.string(),
  /** Intents the profile has tables for. */
  intents: z.array(z.enum(['perceptual', 'relative', 'saturation'])),
  /** What a measured path rests on; absent for imported ones. */
  measurement: pathMeasurementSchema.optional(),
  /** How it was printed and on what it was pressed, as it was then; absent where nobody said. */
  belongsTo: z.object({ setup: printSetupSchema, blank: blankSchema }).optional(),
  createdAt: z.string(),
  demo: z.boolean().default(false),
});

export type ColourPath = z.infer<typeof colourPathSchema>;
