import { z } from 'zod';

/** Work that takes longer than a moment. Progress comes as server-sent events `progress`, then `done` or `failed`. */
export const jobSchema = z.object({
  id: z.string(),
  kind: z.enum([
    'make-sheet',
    'read-back',
    'make-test-sheet',
    'read-chart',
    'learn-path',
    'read-ladder',
    'read-evenness',
  ]),
  state: z.enum(['waiting', 'working', 'done', 'failed', 'cancelled']),
  /** 0..1 */
  progress: z.number().min(0).max(1),
  /** What is being done now: 'Resampling the artwork'. */
  step: z.string(),
  /** The record made, when done: a sheet's, test sheet's, reading's, colour path's, ladder's or evenness reading's id. */
  resultId: z.string().nullable(),
  problem: z
    .object({ code: z.string(), title: z.string(), detail: z.string(), remedy: z.string() })
    .nullable(),
});
export type Job = z.infer<typeof jobSchema>;

/** RFC 9457 problem details, as every failing call answers. */
export const problemDetailsSchema = z.object({
  type: z.string(),
  code: z.string(),
  title: z.string(),
  status: z.number(),
  detail: z.string(),
  remedy: z.string(),
  where: z.string().nullable(),
});
export type ProblemDetails = z.infer<typeof problemDetailsSchema>;

export const shopPreferencesSchema = z.object({
  temperatureUnit: z.enum(['C', 'F']).default('C'),
  lengthUnit: z.enum(['mm', 'in']).default('mm'),
  theme: z.enum(['auto', 'light', 'dark']).default('auto'),
});
export type ShopPreferences = z.infer<typeof shopPreferencesSchema>;

export const shopFactsSchema = z.object({
  version: z.string(),
  folder: z.string(),
  /** True while the shop still holds the demo records of the invented Saltmarsh Rowing Club regatta. */
  demo: z.boolean(),
  /** True when at least one print setup has a colour path. */
  calibrated: z.boolean(),
  preferences: shopPreferencesSchema,
});
export type ShopFacts = z.infer<typeof shopFactsSchema>;
