import { z } from 'zod';

export const readBackSubjectSchema = z.enum(['paper', 'piece']);

/** What a scan or photo of a printed sheet (or of a piece on which the marks were pressed) tells. */
export const readBackSchema = z.object({
  subject: readBackSubjectSchema,
  sheetId: z.string().nullable(),
  /** Known to this shop's record. */
  sheetKnown: z.boolean(),
  /** Known to this shop's record as a test sheet. */
  isTestSheet: z.boolean().default(false),
  /** How the file was written, as the mark itself says. */
  fileMirrored: z.boolean().nullable(),
  seenMirrored: z.boolean(),
  mirroring: z.enum(['right', 'not-mirrored', 'mirrored-twice', 'unknown']),
  /** Measured size against the plan, percent, across and along the sheet; null when the picture's scale is unknown (a photo). */
  scalePercent: z.object({ across: z.number(), along: z.number(), uncertainty: z.number() }).nullable(),
  scale: z.enum(['right', 'wrong', 'stretched', 'unknown']),
  /** First the verdict, then what to do. Plain sentences. */
  sentences: z.array(z.string()),
  markersFound: z.number().int(),
  routeStrip: z.array(
    z.object({
      name: z.string(),
      printedRgb: z.tuple([z.number(), z.number(), z.number()]),
      seenRgb: z.tuple([z.number(), z.number(), z.number()]),
    }),
  ),
});

export type ReadBack = z.infer<typeof readBackSchema>;
export type ReadBackSubject = z.infer<typeof readBackSubjectSchema>;
