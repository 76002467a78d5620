import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { onDisk } from '#shop/files';

/** SHA-256 of a picture: a path, or its bytes. */
export async function sourceHashOf(source: string | Uint8Array): Promise<string> {
  const digest = createHash('sha256');
  if (typeof source !== 'string') return digest.update(source).digest('hex');
  await onDisk('reading the picture', async () => {
    for await (const chunk of createReadStream(source)) digest.update(chunk as Uint8Array);
  });
  return digest.digest('hex');
}
