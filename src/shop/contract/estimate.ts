import { z } from 'zod';

/** A figure with the range in which it lies in nine of ten cases. */
export const estimateSchema = z.object({ value: z.number(), low: z.number(), high: z.number() });
export type EstimateFacts = z.infer<typeof estimateSchema>;
