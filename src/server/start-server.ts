import { Problem } from '#craft/problem';
import { buildServer, type ServerOptions } from './build-server.js';

export interface StartServerOptions extends ServerOptions {
  /** 0: any free one. */
  readonly port: number;
}

export interface RunningServer {
  readonly url: string;
  /** Ends open connections and event streams, then resolves. The shop stays open: it is the caller's. */
  close(): Promise<void>;
}

/**
 * Serves on 127.0.0.1, never on another address. Errors: shop.in-use when the port is taken, request.invalid when it
 * is none that may be used.
 */
export async function startServer(options: StartServerOptions): Promise<RunningServer> {
  const app = await buildServer(options);
  try {
    const url = await app.listen({ host: '127.0.0.1', port: options.port });
    void options.shop.finishDemo();
    return { url, close: () => app.close() };
  } catch (error) {
    await app.close();
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ERR_SOCKET_BAD_PORT' || code === 'EACCES') throw noSuchPort(options.port, error);
    if (code !== 'EADDRINUSE') throw error;
    throw new Problem('shop.in-use', `Port ${options.port} on this computer is already taken.`, {
      remedy: 'Close the other program, or name another port.',
      cause: error,
    });
  }
}

function noSuchPort(port: number, cause: unknown): Problem {
  return new Problem('request.invalid', `${port} is not a port that this program may use.`, {
    remedy: 'Name a whole number from 1024 to 65535, or 0 for any free port.',
    cause,
  });
}
