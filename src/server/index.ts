export { buildServer, type ServerOptions } from './build-server.js';
export { type RunningServer, type StartServerOptions, startServer } from './start-server.js';
