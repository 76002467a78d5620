/** Three numbers of one colour; what they mean is said by the function that takes them. */
export type Triple = readonly [number, number, number];
export type Triple3 = [number, number, number];
