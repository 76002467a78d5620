import { z } from 'zod';

export const contentHashSchema = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in hexadecimal');

/** A picture as it was given, always as it should read on the piece. */
export const artworkSchema = z.object({
  id: contentHashSchema,
  fileName: z.string(),
  format: z.string(),
  /** After EXIF orientation has been applied. */
  widthPixels: z.number().int(),
  heightPixels: z.number().int(),
  bitsPerSample: z.union([z.literal(8), z.literal(16)]),
  colourModel: z.enum(['rgb', 'grey', 'cmyk']),
  hasAlpha: z.boolean(),
  /** Description from the embedded profile; null: untagged and taken as sRGB (grey: sRGB curve; CMYK: a generic profile). */
  profileName: z.string().nullable(),
  /** What was assumed or changed on the way in, one sentence each. */
  remarks: z.array(z.string()),
  createdAt: z.string(),
  demo: z.boolean().default(false),
});

export type Artwork = z.infer<typeof artworkSchema>;
