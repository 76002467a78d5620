/** Into 0..1; what is no number becomes 0. */
export const clipUnit = (v: number): number => (v > 0 ? Math.min(v, 1) : 0);
