import { threadWork } from '#shop/threads';
import * as work from './path-work.js';

export const learn = threadWork(work.learn);
export const profile = threadWork(work.profile);
export const predict = threadWork(work.predict);
export const invert = threadWork(work.invert);
export const look = threadWork(work.look);
export const answer = threadWork(work.answer);
export const followUp = threadWork(work.followUp);
export const checkColours = threadWork(work.checkColours);
export const reached = threadWork(work.reached);
export const foresee = threadWork(work.foresee);
export const carry = threadWork(work.carry);
export const palette = threadWork(work.palette);
export const byEye = threadWork(work.byEye);
