import { readFileSync } from 'node:fs';
import path from 'node:path';

/** The program's version, from its package.json. */
export const programVersion: string = (
  JSON.parse(readFileSync(path.resolve(import.meta.dirname, '../../package.json'), 'utf8')) as {
    version: string;
  }
).version;
