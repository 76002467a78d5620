import { createWriteStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import type { MultipartFile } from '@fastify/multipart';
import type { FastifyRequest } from 'fastify';
import { isProblem, Problem } from '#craft/problem';
import type { Shop } from '#shop';
import { limitBytes } from '#shop/artwork';
import { onDisk } from '#shop/files';

export interface Upload {
  /** Where the bytes are, in the shop's scratch folder; removed when `work` ends. */
  readonly path: string;
  /** As the sender named it: for showing only. */
  readonly fileName: string;
  /** The other fields of the form. */
  readonly fields: Readonly<Record<string, string>>;
}

/**
 * Streams the one file of a multipart form to the scratch folder, then runs `work` on it. Fields may come
 * before or after the file. Errors: request.invalid (no file, not a form), image.too-large, disk.full.
 */
export async function withUpload<T>(
  shop: Shop,
  request: FastifyRequest,
  maxBytes: number,
  work: (upload: Upload) => Promise<T>,
): Promise<T> {
  if (!request.isMultipart()) throw noFile();
  const path = shop.scratch.file('upload');
  let fileName: string | undefined;
  const fields: Record<string, string> = {};
  try {
    for await (const part of request.parts()) {
      if (part.type === 'field') {
        fields[part.fieldname] = String(part.value);
      } else if (part.fieldname === 'file' && fileName === undefined) {
        fileName = asNamed(part.filename ?? '');
        await receive(part, path, maxBytes);
      } else {
        part.file.resume();
      }
    }
    if (fileName === undefined) throw noFile();
  } catch (error) {
    await shop.scratch.discard(path);
    throw isBrokenForm(error) ? brokenForm(error) : error;
  }
  try {
    return await work({ path, fileName, fields });
  } finally {
    await shop.scratch.discard(path);
  }
}

/** Browsers write quotes and line ends in a form's file names as these three (HTML Standard, multipart/form-data encoding). */
function asNamed(fileName: string): string {
  return fileName.replaceAll('%22', '"').replace(/%0[AD]/g, ' ');
}

async function receive(part: MultipartFile, path: string, maxBytes: number): Promise<void> {
  await onDisk('taking the file in', () =>
    pipeline(part.file, limitBytes(maxBytes), createWriteStream(path, { flags: 'wx' })),
  );
}

function noFile(): Problem {
  return new Problem('request.invalid', 'No file came with the call.', {
    remedy: 'Send multipart form data with the file in the part named “file”.',
    where: 'file',
  });
}

/** The form's reader says so in plain Errors: its text ended before its closing boundary, or is malformed. */
function isBrokenForm(error: unknown): boolean {
  if (isProblem(error)) return false;
  const { message, code } = error as { message?: string; code?: string };
  return (
    code === 'ERR_STREAM_PREMATURE_CLOSE' ||
    code === 'ECONNRESET' ||
    /unexpected end|terminated early|malformed|boundary not found/i.test(message ?? '')
  );
}

function brokenForm(cause: unknown): Problem {
  return new Problem('request.invalid', 'The file broke off before it was all here.', {
    remedy: 'Send it again.',
    where: 'file',
    cause,
  });
}
