export { type JobContext, Jobs, type StartJob } from './jobs.js';
