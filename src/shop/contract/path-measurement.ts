import { z } from 'zod';
import { contentHashSchema } from './artwork.js';
import { expectedErrorSchema, gradeSchema } from './grades.js';

const labSchema = z.tuple([z.number(), z.number(), z.number()]);

/** What a measured colour path rests on, and how far it can be trusted. Lab is D50, 2°; differences are CIEDE2000. */
export const pathMeasurementSchema = z.object({
  /** The worst of the readings it is made from. */
  grade: gradeSchema,
  /** Patches (for grade E: picks) the model is made from, without those left out. */
  patches: z.number().int(),
  /** Patches that repeat another; from 8 on they part reading noise from the printer's own unevenness. */
  repeats: z.number().int(),
  /** Patches left out because they do not fit what the others say. */
  outliers: z.array(
    z.object({
      sampleId: z.string(),
      measuredLab: labSchema,
      expectedLab: labSchema,
      deltaE00: z.number(),
    }),
  ),
  /** Standard deviation of a single reading. */
  noiseSdLab: labSchema,
  /** How far the model's colours are expected to lie from the true ones; what changes from print to print comes on top. */
  expectedError: expectedErrorSchema,
  /** The readers' part of it, which more patches do not lessen; absent: none known of. */
  readingError: expectedErrorSchema.optional(),
  gamut: z.object({
    /** Device white as pressed, and the darkest colour. */
    whiteLab: labSchema,
    blackLab: labSchema,
    /** Cubic CIELAB units. */
    volumeLab: z.number(),
    /** Share of sRGB's colours that are reached, 0..1. */
    srgbShare: z.number(),
  }),
  /** The model as JSON and the measurements as CGATS, by content. */
  modelHash: contentHashSchema,
  measurementsHash: contentHashSchema,
  /** Name of the colour path this one was adapted from. */
  adaptedFrom: z.string().nullable(),
  /** What was assumed or found odd in the measurements, one sentence each. */
  remarks: z.array(z.string()),
  /** Readings it was learnt from; none for an instrument's file brought in by itself. */
  readingIds: z.array(z.string()).default([]),
});

export type PathMeasurement = z.infer<typeof pathMeasurementSchema>;
