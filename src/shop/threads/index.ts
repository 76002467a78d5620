export { ThreadPool, type ThreadPoolOptions, type ThreadRunOptions } from './thread-pool.js';
export { threadWork } from './thread-work.js';
