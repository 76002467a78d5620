import { z } from 'zod';
import { idSchema } from '#contract';

/** What an evenness sheet is being ordered for: in the address, so that other places can lead here. */
export const evennessSearchSchema = z.object({
  press: idSchema.optional().catch(undefined),
  setup: idSchema.optional().catch(undefined),
  blank: idSchema.optional().catch(undefined),
});
export type EvennessSearch = z.infer<typeof evennessSearchSchema>;
