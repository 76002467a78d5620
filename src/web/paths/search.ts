import { z } from 'zod';
import { contentHashSchema } from '#contract';

export const views = ['reach', 'greys', 'doubt', 'artwork', 'checks', 'made-from'] as const;
export type View = (typeof views)[number];

/** Which view of a path is open, and which artwork is held against it. */
export const pathSearchSchema = z.object({
  tab: z.enum(views).optional().catch(undefined),
  artwork: contentHashSchema.optional().catch(undefined),
});

/** The colour looked up: without the sharp sign, which an address keeps for itself. */
export const lookupSearchSchema = z.object({
  hex: z
    .string()
    .regex(/^[0-9a-f]{6}$/i)
    .optional()
    .catch(undefined),
});
