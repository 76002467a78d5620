import { z } from 'zod';
import { contentHashSchema } from './artwork.js';
import { idSchema } from './blanks.js';
import { gradeSchema } from './grades.js';
import { unevennessSchema } from './presses.js';

/** The part of a test sheet's order that is about evenness. */
export const evennessOrderSchema = z.object({ pressId: idSchema.optional() });

/** What one scan of an evenness sheet tells. Places as the piece lies under the press: back to front, left to right. */
export const evennessReadingSchema = z.object({
  id: z.string(),
  sheetId: z.string(),
  pressId: idSchema.nullable(),
  pressName: z.string().nullable(),
  fileName: z.string(),
  sourceHash: contentHashSchema,
  readerId: idSchema.nullable(),
  readerName: z.string().nullable(),
  grade: gradeSchema,
  surface: z.enum(['paper', 'piece']),
  map: z.object({
    columns: z.number().int(),
    rows: z.number().int(),
    pitchMm: z.number(),
    /** From the best region, CIEDE2000; null where nothing could be read. */
    deltaE00: z.array(z.number().nullable()),
    /** Density less that of the best region. */
    densityLess: z.array(z.number().nullable()),
    /** Tilt, rim and spots put together again, without chance. */
    smooth: z.array(z.number()),
  }),
  /** Where it is best: darkest, by a patch of neighbours. */
  best: z.object({ across: z.number(), along: z.number() }),
  meanDeltaE00: z.number(),
  p95DeltaE00: z.number(),
  findings: z.array(unevennessSchema),
  /** Against the reading before it of the same press: nothing new, better, worse, and what came or went. */
  since: z.object({ readingId: z.string(), words: z.string() }).nullable(),
  sentences: z.array(z.string()),
  createdAt: z.string(),
  demo: z.boolean().default(false),
});
export type EvennessReadingFacts = z.infer<typeof evennessReadingSchema>;
