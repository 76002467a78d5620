import { z } from 'zod';
import { idSchema, pressureSchema } from '#contract';

/** A question to the model of heat, in the address; left out: the blank's recipe and usual thickness. */
export const heatSearchSchema = z.object({
  blank: idSchema.optional().catch(undefined),
  press: idSchema.optional().catch(undefined),
  platenC: z.number().optional().catch(undefined),
  seconds: z.number().optional().catch(undefined),
  pressure: pressureSchema.optional().catch(undefined),
  thicknessMm: z.number().optional().catch(undefined),
  startC: z.number().optional().catch(undefined),
  /** Left out: as the blank's recipe says. */
  faceDown: z.boolean().optional().catch(undefined),
  prePress: z.number().optional().catch(undefined),
});
export type HeatSearch = z.infer<typeof heatSearchSchema>;

export const forceSearchSchema = z.object({
  press: idSchema.optional().catch(undefined),
  blank: idSchema.optional().catch(undefined),
});
