/** Interleaved samples of 8 or 16 bits. */
export type Samples = Uint8Array | Uint16Array;
