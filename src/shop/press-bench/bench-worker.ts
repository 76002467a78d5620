import { threadWork } from '#shop/threads';
import * as work from './bench-work.js';

export const answer = threadWork(work.answer);
export const field = threadWork(work.field);
export const courses = threadWork(work.courses);
export const verdict = threadWork(work.verdict);
export const fit = threadWork(work.fit);
export const evenness = threadWork(work.evenness);
