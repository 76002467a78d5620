import { createWriteStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import type { MultipartFile } from '@fastify/multipart';
import type { FastifyRequest } from 'fastify';
import { isProblem, Problem } from '#craft/problem';
import type { Shop } from '#shop';
import { limitBytes } from '#shop/artwork';
import { onDisk } from '#shop/files';

export interface UploadedFile {
  readonly path: string;
  readonly fileName: string;
}

export interface Upload {
  /** Where the bytes are, in the shop's scratch folder; removed when `work` ends. */
  readonly path: string;
  /** As the sender named it: for showing only. */
  readonly fileName: string;
  /** The other fields of the form. */
  readonly fields: Readonly<Record<string, string>>;
  /** Further files that were asked for, by the name of their part; likewise removed when `work` ends. */
  readonly more: Readonly<Record<string, UploadedFile>>;
}

/**
 * Streams the file of a multipart form to the scratch folder, and those of the parts named in `moreParts` if they come,
 * then runs `work` on them. Fields may come before or after.
 * Errors: request.invalid (no file, an empty one, not a form), image.too-large, disk.full.
 */
export async function withUpload<T>(
  shop: Shop,
  request: FastifyRequest,
  maxBytes: number,
  work: (upload: Upload) => Promise<T>,
  moreParts: readonly string[] = [],
): Promise<T> {
  if (!request.isMultipart()) throw noFile();
  const files: Record<string, UploadedFile> = {};
  const fields: Record<string, string> = {};
  try {
    try {
      for await (const part of request.parts()) {
        const name = part.fieldname;
        if (part.type === 'field') {
          fields[name] = String(part.value);
        } else if ((name === 'file' || moreParts.includes(name)) && files[name] === undefined) {
          const path = shop.scratch.file('upload');
          files[name] = { path, fileName: asNamed(part.filename ?? '') };
          await receive(part, path, maxBytes);
          if ((await stat(path)).size === 0) throw emptyFile(part.filename ?? '', name);
        } else {
          part.file.resume();
        }
      }
    } catch (error) {
      throw isBrokenForm(error) ? brokenForm(error) : error;
    }
    const { file, ...more } = files;
    if (file === undefined) throw noFile();
    return await work({ ...file, fields, more });
  } finally {
    for (const { path } of Object.values(files)) await shop.scratch.discard(path);
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

function emptyFile(fileName: string, where: string): Problem {
  const name = asNamed(fileName);
  return new Problem('request.invalid', `The file${name === '' ? '' : ` “${name}”`} is empty.`, {
    remedy: 'Choose it again, or save it anew first: it may still have been being written.',
    where,
  });
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
