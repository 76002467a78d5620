export { attachKernel, createArena } from './arena.js';
export { applyLinkPlain, evaluateLink } from './plain.js';
export type { ArenaOptions, Kernel, KernelArena, KernelKind, RunOptions, SampleBits } from './types.js';
