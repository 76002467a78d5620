import { z } from 'zod';

/**
 * How colours were come by, best first.
 * A an instrument · B a reader calibrated with the same ink, or by a reference target · C a photo with a reference card
 * in it · D the reader's own word, anchored on the bare ground · E eyes alone
 */
export const gradeSchema = z.enum(['A', 'B', 'C', 'D', 'E']);

/** How far colours are expected to lie from the true ones, CIEDE2000, all known causes together. */
export const expectedErrorSchema = z.object({
  meanDeltaE00: z.number(),
  p95DeltaE00: z.number(),
  /**
   * measured: from the patches themselves · calibration: and from the reader's calibration, tested on patches left out
   * · published: from figures others published for readers of this kind, and our simulated ones · rule-of-thumb: common practice
   */
  restsOn: z.enum(['measured', 'calibration', 'published', 'rule-of-thumb']).default('measured'),
});

export type Grade = z.infer<typeof gradeSchema>;
export type ExpectedErrorFacts = z.infer<typeof expectedErrorSchema>;
