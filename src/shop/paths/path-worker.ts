import { threadWork } from '#shop/threads';
import * as work from './path-work.js';

export const learn = threadWork(work.learn);
export const profile = threadWork(work.profile);
export const predict = threadWork(work.predict);
export const invert = threadWork(work.invert);
