import { z } from 'zod';
import { idSchema } from '#contract';

/** What a ladder is to be for: in the address, so that other places can lead here. */
export const newLadderSearchSchema = z.object({
  blank: idSchema.optional().catch(undefined),
  setup: idSchema.optional().catch(undefined),
  press: idSchema.optional().catch(undefined),
  /** Where to go on from: true temperature and seconds. */
  platenC: z.number().min(100).max(230).optional().catch(undefined),
  seconds: z.number().min(1).max(1800).optional().catch(undefined),
});
export type NewLadderSearch = z.infer<typeof newLadderSearchSchema>;

export const blackSearchSchema = z.object({
  blank: idSchema.optional().catch(undefined),
  ladder: z.string().max(40).optional().catch(undefined),
});
