import { z } from 'zod';
import { contentHashSchema } from './artwork.js';
import { idSchema } from './blanks.js';
import { expectedErrorSchema, gradeSchema } from './grades.js';
import { readBackSubjectSchema } from './readback.js';
import { testSheetKindSchema } from './test-sheets.js';

const triple = z.tuple([z.number(), z.number(), z.number()]);
const hex = z.string();
/** A place in a picture, pixels from its top left corner. */
const pointSchema = z.tuple([z.number(), z.number()]);

export const readerKindSchema = z.enum(['scanner', 'phone']);

/** A scanner or a phone, and what is known of how it sees. */
export const readerSchema = z.object({
  id: idSchema,
  name: z.string().min(1).max(120),
  kind: readerKindSchema,
  /** Settings to keep alike: automatic exposure off, … */
  note: z.string().max(500).default(''),
  calibration: z
    .object({
      /** same-ink: a pressed sheet of the same ink, measured once · target: a reference target with its file */
      by: z.enum(['same-ink', 'target']),
      samples: z.number().int(),
      expectedError: expectedErrorSchema,
      mapHash: contentHashSchema,
      setupName: z.string().nullable(),
      remarks: z.array(z.string()),
      createdAt: z.string(),
    })
    .nullable()
    .default(null),
  demo: z.boolean().default(false),
});
/** What a person may set; the calibration comes from calibrating. */
export const readerInputSchema = readerSchema.omit({ calibration: true, id: true });

/** A card of known patches in rows and columns lying in the picture: where its outer corners are, going round. */
export const cardInPictureSchema = z.object({
  corners: z.array(pointSchema).length(4),
  /** The CGATS file of the card's patches, kept by its content. */
  valuesHash: contentHashSchema,
});

export const readingPatchSchema = z.object({
  index: z.number().int(),
  column: z.number().int(),
  row: z.number().int(),
  deviceRgb: triple,
  /** As it would look on a screen, sRGB. */
  seenHex: hex,
  lab: triple,
  /** Standard deviation of `lab`, reading noise only. */
  sdLab: triple,
  usedShare: z.number(),
  warnings: z.array(z.string()),
  sound: z.boolean(),
  /** Printed only to be compared with its likes. */
  control: z.boolean(),
});

/** What was read from one scan, photo or instrument file of a test sheet. */
export const readingSchema = z.object({
  id: z.string(),
  sheetId: z.string(),
  sheetKind: testSheetKindSchema,
  from: z.enum(['scan', 'photo', 'instrument']),
  subject: readBackSubjectSchema,
  fileName: z.string(),
  sourceHash: contentHashSchema,
  readerId: idSchema.nullable(),
  readerName: z.string().nullable(),
  grade: gradeSchema,
  /** How far the colours read are expected to lie from the true ones. */
  expectedError: expectedErrorSchema,
  /** 'Read 150 of 150 patches from the pressed piece.' first; then what to look at. */
  sentences: z.array(z.string()),
  patchCount: z.number().int(),
  soundCount: z.number().int(),
  /** The bare ground. */
  groundLab: triple,
  repeatability: z.object({ meanDeltaE00: z.number(), patches: z.number().int() }).nullable(),
  /** Dye over the sheet beside its mean, 1 = as much. */
  evenness: z
    .object({
      known: z.boolean(),
      least: z.object({ dye: z.number(), where: z.string() }),
      most: z.object({ dye: z.number(), where: z.string() }),
      map: z.object({ columns: z.number().int(), rows: z.number().int(), dye: z.array(z.number()) }),
    })
    .nullable(),
  /** Lightest over darkest of the reader's light; null for instruments. */
  lightRatio: z.number().nullable(),
  pixelsPerMm: z.number().nullable(),
  /** The twelve raw patches along the sheet's edge, where they could be read. */
  routeStrip: z.array(z.object({ name: z.string(), deviceRgb: triple, lab: triple })),
  /** Patches by content; `GET /api/readings/:id/patches`. */
  patchesHash: contentHashSchema,
  measurementsHash: contentHashSchema,
  /** The picture with what was read drawn over it; null for instruments. */
  overlay: z
    .object({ contentHash: contentHashSchema, widthPixels: z.number().int(), heightPixels: z.number().int() })
    .nullable(),
  createdAt: z.string(),
  demo: z.boolean().default(false),
});

export type ReaderKind = z.infer<typeof readerKindSchema>;
export type Reader = z.infer<typeof readerSchema>;
export type ReaderInput = z.infer<typeof readerInputSchema>;
export type CardInPicture = z.infer<typeof cardInPictureSchema>;
export type ReadingPatch = z.infer<typeof readingPatchSchema>;
export type Reading = z.infer<typeof readingSchema>;
