import { spawn } from 'node:child_process';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '../..');

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** The program as a person starts it: its own process, words and exit code. Whatever happens, nobody is shown the insides. */
export function runProgram(args: readonly string[], shopFolder: string): Promise<Ended> {
  const child = spawn(process.execPath, ['bin/dyewright.mjs', ...args, '--shop', shopFolder], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, NODE_OPTIONS: '', CI: '1' },
  });
  let out = '';
  let err = '';
  child.stdout.on('data', (chunk) => {
    out += String(chunk);
  });
  child.stderr.on('data', (chunk) => {
    err += String(chunk);
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => {
      if (/\n\s+at .*[:(]\d+|node:internal|Unhandled/.test(out + err))
        reject(new Error(`the insides were shown: ${out}${err}`));
      resolve({ code, out, err });
    });
  });
}
