import { z } from 'zod';
import { contentHashSchema, idSchema, intentSchema, placementSchema } from '#contract';

/**
 * What the Sheet place is about stands in the address: a reload, the back button and a bookmark keep it. Whatever
 * in an address is not understood is left out rather than refused.
 */
export const sheetSearchSchema = z.object({
  artwork: contentHashSchema.optional().catch(undefined),
  blank: idSchema.optional().catch(undefined),
  setup: idSchema.optional().catch(undefined),
  placement: placementSchema.optional().catch(undefined),
  copies: z.number().int().min(1).max(500).optional().catch(undefined),
  bleedMm: z.number().min(0).max(50).optional().catch(undefined),
  intent: intentSchema.optional().catch(undefined),
  blackPointCompensation: z.boolean().optional().catch(undefined),
});
export type SheetSearch = z.infer<typeof sheetSearchSchema>;
