import { spawn } from 'node:child_process';

/** Where the shop filled with the demonstration lies; the name of a variable of the environment. */
export const filledShop = 'DYEWRIGHT_TEST_FILLED_SHOP';

/** The program itself, serving the shop in a folder. */
export async function serveShop(folder: string): Promise<{ url: string; close: () => Promise<void> }> {
  const child = spawn(
    process.execPath,
    ['dist/cli/main.js', 'serve', '--no-open', '--port', '0', '--shop', folder],
    { stdio: ['ignore', 'pipe', 'inherit'] },
  );
  const url = await new Promise<string>((resolve, reject) => {
    let text = '';
    child.stdout.on('data', (chunk: Buffer) => {
      text += chunk.toString();
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(text);
      if (found) resolve(found[0]);
    });
    child.once('exit', (code) => reject(new Error(`The shop did not open (exit ${code}): ${text}`)));
  });
  return {
    url,
    close: async () => {
      const gone = new Promise((resolve) => child.once('exit', resolve));
      child.kill('SIGTERM');
      await gone;
    },
  };
}
