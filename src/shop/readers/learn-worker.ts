import { threadWork } from '#shop/threads';
import * as work from './learn-work.js';

export const learn = threadWork(work.learn);
export const readTarget = threadWork(work.readTarget);
