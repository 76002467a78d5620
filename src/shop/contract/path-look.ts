import { z } from 'zod';
import { idSchema } from './blanks.js';
import { expectedErrorSchema, gradeSchema } from './grades.js';

const triple = z.tuple([z.number(), z.number(), z.number()]);
const hex = z.string();
/** A colour asked for: L* runs from 0 to 100, a* and b* hardly pass ±130; what is far beyond is no colour. */
const wantedTriple = z.tuple([
  z.number().min(0).max(150),
  z.number().min(-300).max(300),
  z.number().min(-300).max(300),
]);

/**
 * Everything there is to see of a path; Lab absolute, D50, 2°. Device values 0..255; hexadecimal colours and `srgb` are
 * seen beside the path's own white, as on a screen.
 */
export const pathLookSchema = z.object({
  pathId: idSchema,
  /** Null: an imported profile, whose colours nobody measured here. */
  grade: gradeSchema.nullable(),
  expectedError: expectedErrorSchema.nullable(),
  /** 'Colours should come out within 1.4 ΔE00 (grade B).' first. */
  sentences: z.array(z.string()),
  gamut: z.object({
    /** x, y, z of each vertex: L, a, b. */
    lab: z.array(z.number()),
    /** Three bytes a vertex: how it looks on a screen. */
    srgb: z.array(z.number()),
    triangles: z.array(z.number()),
  }),
  /** sRGB beside the path's own white, the same form. */
  srgbGamut: z.object({
    lab: z.array(z.number()),
    srgb: z.array(z.number()),
    triangles: z.array(z.number()),
  }),
  /** From black to white: the greys the path makes, and the greys of the plain driver. */
  neutrals: z.array(
    z.object({
      /** Media-relative L* asked for. */
      wantedL: z.number(),
      deviceRgb: triple,
      lab: triple,
      /** Null where nobody measured. */
      sdLab: triple.nullable(),
      /** What equal device values of about this lightness give. */
      plainLab: triple,
    }),
  ),
  /** Where the model is least sure: its doubt over lightness and hue. */
  doubt: z.array(z.object({ lab: triple, hex, deviceRgb: triple, expectedDeltaE00: z.number() })),
  /** Measured patches that were left out. */
  leftOut: z.array(
    z.object({ sampleId: z.string(), measuredHex: hex, expectedHex: hex, deltaE00: z.number() }),
  ),
});

/** What comes out when a colour is asked for. Lab absolute; device values 0..255; hexadecimal colours beside the path's own white. */
export const colourAnswerSchema = z.object({
  wantedLab: triple,
  wantedHex: hex,
  deviceRgb: triple,
  comesOutLab: triple,
  comesOutHex: hex,
  reached: z.boolean(),
  /** Between what was wanted and what the model says. */
  missDeltaE00: z.number(),
  /** The miss and all doubt together; null for an imported profile, whose doubt nobody knows. */
  expectedDeltaE00: z.number().nullable(),
  /** Neighbours that print as they look, for a colour that is not reached; nearest first. */
  alternatives: z.array(z.object({ hex, lab: triple, deltaE00FromWanted: z.number(), why: z.string() })),
});

/** Colours asked of a path: sRGB hex, or Lab beside white (media-relative, as on a screen) or absolute. */
export const colourQuestionSchema = z.object({
  colours: z
    .array(
      z.union([
        z.object({ hex: z.string().regex(/^#[0-9a-f]{6}$/i) }),
        z.object({ lab: wantedTriple, white: z.enum(['relative', 'absolute']).default('relative') }),
      ]),
    )
    .min(1)
    .max(200),
});

/** Colours of an artwork that change on this path, the most visible first. */
export const artworkColoursSchema = z.object({
  /** Share of the pixels further off than the threshold. */
  changedShare: z.number(),
  thresholdDeltaE00: z.number(),
  colours: z.array(
    z.object({
      wantedHex: hex,
      comesOutHex: hex,
      deltaE00: z.number(),
      share: z.number(),
      why: z.enum(['not-reached', 'doubt', 'fine']),
    }),
  ),
  sentences: z.array(z.string()),
});

const spreadSchema = z.object({
  count: z.number().int(),
  mean: z.number(),
  p95: z.number(),
  max: z.number(),
});

/** A check sheet printed through the path and read back. Differences are CIEDE2000 beside the path's own white. */
export const pathCheckSchema = z.object({
  id: z.string(),
  pathId: idSchema,
  sheetId: z.string(),
  readingId: z.string(),
  grade: gradeSchema,
  /** Colours within reach. */
  overall: spreadSchema,
  neutrals: spreadSchema.nullable(),
  /** Colours that the path cannot reach, against their nearest; set apart. */
  limited: spreadSchema.nullable(),
  /** What the path itself expected for the colours within reach. */
  expectedMean: z.number(),
  /** 'Good: colours come out 1.2 ΔE00 from what was asked.' first. */
  sentences: z.array(z.string()),
  verdict: z.enum(['good', 'look', 'stale']),
  patches: z.array(
    z.object({
      wantedLab: triple,
      seenLab: triple,
      wantedHex: hex,
      seenHex: hex,
      deltaE00: z.number(),
      kind: z.enum(['colour', 'neutral', 'limited']),
    }),
  ),
  createdAt: z.string(),
});

/** Whether a path still belongs to the way things are printed and pressed. */
export const pathStandingSchema = z.object({
  pathId: idSchema,
  standing: z.enum(['fits', 'look', 'stale', 'unknown']),
  /** 'The ink has changed since the path was measured: … then, … now.' */
  reasons: z.array(
    z.object({
      what: z.enum([
        'printer',
        'ink',
        'paper',
        'driver',
        'mirroring',
        'blank',
        'recipe',
        'route-strip',
        'check',
        'age',
      ]),
      sentence: z.string(),
    }),
  ),
  lastCheck: z.object({ id: z.string(), createdAt: z.string(), meanDeltaE00: z.number() }).nullable(),
});

/** Picks from a grey sheet. */
export const eyePicksSchema = z.object({
  sheetId: z.string(),
  name: z.string().max(120).default(''),
  /** For each grey row, the label of the most neutral candidate. */
  neutrals: z.array(z.string()),
  fromBlack: z.string(),
  fromWhite: z.string(),
  likeCard: z.string(),
});

/** Readings from which a path is to be learnt. */
export const learnRequestSchema = z.object({
  readingIds: z.array(z.string()).min(1).max(12),
  name: z.string().max(120).default(''),
  /** A path to adapt to this paper or blank by few patches. */
  basePathId: idSchema.optional(),
  /** A print setup that is to use the new path at once. */
  setupId: idSchema.optional(),
  /** Take readings of unpressed paper too: a path for the paper itself. */
  onPaper: z.boolean().optional(),
});

export type PathLook = z.infer<typeof pathLookSchema>;
export type ColourAnswer = z.infer<typeof colourAnswerSchema>;
export type ColourQuestion = z.infer<typeof colourQuestionSchema>;
export type ArtworkColours = z.infer<typeof artworkColoursSchema>;
export type PathCheck = z.infer<typeof pathCheckSchema>;
export type PathStanding = z.infer<typeof pathStandingSchema>;
export type EyePicks = z.infer<typeof eyePicksSchema>;
export type LearnRequest = z.infer<typeof learnRequestSchema>;
