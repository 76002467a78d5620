import { randomUUID } from 'node:crypto';
import { rename } from 'node:fs/promises';
import type { Job } from '#contract';
import { onDisk, type Scratch } from '#shop/files';
import type { JobContext, Jobs } from '#shop/jobs';

/**
 * Reads an uploaded picture as a job. The file is taken over from where it lies in the scratch folder, and gone when the
 * job has ended.
 *
 * @param check throws at once what is wrong with what was said of the picture, not when the job's turn comes
 * @param read returns the id of the record made
 */
export async function readAsJob(
  parts: { readonly scratch: Scratch; readonly jobs: Jobs },
  kind: Job['kind'],
  upload: string,
  check: () => Promise<void>,
  read: (source: string, context: JobContext) => Promise<string>,
): Promise<Job> {
  const { scratch, jobs } = parts;
  const source = scratch.file('picture');
  await onDisk('taking the picture in', () => rename(upload, source));
  try {
    await check();
    const job = await jobs.start({
      kind,
      key: `${kind}:${randomUUID()}`,
      work: async (context) => {
        try {
          return await read(source, context);
        } finally {
          await scratch.discard(source);
        }
      },
    });
    // A job that is stopped before its turn never comes to its work.
    void jobs
      .finished(job.id)
      .catch(() => undefined)
      .then(() => scratch.discard(source));
    return job;
  } catch (error) {
    await scratch.discard(source);
    throw error;
  }
}
