import { z } from 'zod';

/** What can hurt a person, with what it rests on; the maker's instructions come before all of them. */
export const cautionSchema = z.object({
  id: z.enum(['hot', 'fumes', 'ptfe', 'solvent', 'glass', 'oven', 'circuit']),
  text: z.string(),
  basis: z.string(),
});
export type CautionFacts = z.infer<typeof cautionSchema>;
