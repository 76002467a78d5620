import { z } from 'zod';
import { contentHashSchema, idSchema } from '#contract';

/** What is being started on the Measure place: in the address, so that other places can lead here. */
export const measureSearchSchema = z.object({
  start: z.enum(['colour', 'grey', 'file', 'check', 'follow-up', 'palette']).optional().catch(undefined),
  setup: idSchema.optional().catch(undefined),
  blank: idSchema.optional().catch(undefined),
  path: idSchema.optional().catch(undefined),
  artwork: contentHashSchema.optional().catch(undefined),
});
export type MeasureSearch = z.infer<typeof measureSearchSchema>;
