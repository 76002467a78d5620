import { spawn } from 'node:child_process';
import { Command } from 'commander';
import { openShop } from '#shop';
import { globals, numberFrom } from './common.js';

interface Options {
  readonly port: number;
  readonly open?: boolean;
}

/** Serve the page on this machine only, until stopped. */
export function serveCommand(): Command {
  return new Command('serve')
    .description('open the shop and serve the page on 127.0.0.1')
    .option('--port <number>', 'port; 0 takes a free one', numberFrom('--port'), 4710)
    .option('--open', 'open the page in the browser')
    .option('--no-open', 'only print the address')
    .action(async (options: Options, command: Command) => {
      const { say, folder } = globals(command);
      // Only here: the other commands need not wait for a server to load.
      const { startServer } = await import('#server');
      const shop = await openShop({ folder });
      const server = await startServer({ shop, port: options.port }).catch(async (problem: unknown) => {
        await shop.close();
        throw problem;
      });
      say.answer({ url: server.url, shop: folder }, () =>
        [`Dyewright is at ${server.url}`, `The shop folder is ${folder}`, 'Ctrl-C stops it.'].join('\n'),
      );
      if (options.open === true) openInBrowser(server.url);
      const stop = async (): Promise<void> => {
        await server.close();
        await shop.close();
        process.exit(0);
      };
      for (const name of ['SIGINT', 'SIGTERM'] as const) process.once(name, () => void stop());
    });
}

/** Best effort: where there is no desktop the printed address is enough. */
function openInBrowser(url: string): void {
  if (process.env.CI !== undefined) return;
  const [program, ...args] =
    process.platform === 'darwin'
      ? ['open', url]
      : process.platform === 'win32'
        ? ['cmd', '/c', 'start', '', url]
        : ['xdg-open', url];
  const opened = spawn(program as string, args, { stdio: 'ignore', detached: true });
  opened.on('error', () => undefined);
  opened.unref();
}
