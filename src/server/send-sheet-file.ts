import { createReadStream } from 'node:fs';
import type { FastifyReply } from 'fastify';
import type { OpenedSheetFile } from '#shop/sheets';
import { filePolicy } from './headers.js';

/** A file of a sheet, to be saved; its content never changes under its tag. */
export function sendSheetFile(reply: FastifyReply, file: OpenedSheetFile): FastifyReply {
  // Names in records are made of letters, digits, dots and hyphens, so no quoting is wanted.
  return reply
    .headers({
      'content-length': file.bytes,
      'content-disposition': `attachment; filename="${file.fileName}"`,
      'content-security-policy': filePolicy,
      'cache-control': 'private, no-cache',
      etag: `"${file.contentHash}"`,
    })
    .type(file.mediaType)
    .send(createReadStream(file.path));
}
