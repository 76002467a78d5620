import { createHash } from 'node:crypto';
import type { ColourPath, PathMeasurement } from '#contract';
import { readingKeywords, writeCgats } from '#craft/cgats';
import { describeProfile, parseProfile } from '#craft/icc';
import type { ContentFiles } from '#shop/files';
import { canonicalJson, type Records } from '#shop/store';
import { freeId } from './free-id.js';
import { inkModelJson } from './ink-model-file.js';
import type { LearntPath } from './learn-path.js';

/** What is kept of a path whatever it was made from. */
export interface KeptPath {
  readonly origin: 'measured' | 'by-eye';
  /** JSON of the model, and CGATS text. */
  readonly model: string;
  readonly measurements: string;
  readonly icc: Uint8Array;
  readonly measurement: Omit<PathMeasurement, 'modelHash' | 'measurementsHash'>;
  readonly belongsTo?: ColourPath['belongsTo'];
}

export interface KeepParts {
  readonly records: Records;
  readonly files: ContentFiles;
  readonly now: () => Date;
}

/** A learnt path as it is kept. */
export function keptFromLearnt(learnt: LearntPath, belongsTo: ColourPath['belongsTo']): KeptPath {
  const { grade, readingError } = learnt.measurement;
  return {
    origin: 'measured',
    model: inkModelJson(learnt.data),
    measurements: writeCgats(learnt.table, {
      originator: 'Dyewright',
      keywords: readingKeywords({
        grade,
        meanDeltaE00: readingError?.meanDeltaE00 ?? 0,
        p95DeltaE00: readingError?.p95DeltaE00 ?? 0,
      }),
    }),
    icc: learnt.icc,
    measurement: learnt.measurement,
    belongsTo,
  };
}

/**
 * Keeps the model, the measurements and the profile of a path, and records it; or nothing of it. The same model
 * under the same name gives the record there is.
 * Errors: disk.full, disk.failed.
 */
export async function keepPath(made: KeptPath, name: string, parts: KeepParts): Promise<ColourPath> {
  const { records, files, now } = parts;
  const description = describeProfile(parseProfile(made.icc));
  const fresh: string[] = [];
  const keep = async (content: Uint8Array | string): Promise<string> => {
    const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
    const hash = createHash('sha256').update(bytes).digest('hex');
    if (!(await files.has(hash))) fresh.push(hash);
    return (await files.keep(bytes)).hash;
  };
  try {
    const modelHash = await keep(made.model);
    const measurementsHash = await keep(made.measurements);
    const iccHash = await keep(made.icc);
    const kept = await records.together(async (inside) => {
      const there = (await inside.colourPaths.list()).find(
        (path) =>
          path.measurement?.modelHash === modelHash &&
          path.measurement.measurementsHash === measurementsHash &&
          path.name === name &&
          path.iccVersion === description.version &&
          canonicalJson(path.belongsTo ?? null) === canonicalJson(made.belongsTo ?? null),
      );
      if (there !== undefined) return there;
      const path: ColourPath = {
        id: await freeId(inside, name),
        name,
        origin: made.origin,
        iccHash,
        description: description.description,
        iccVersion: description.version,
        deviceClass: description.deviceClass,
        intents: [...description.intents],
        measurement: { ...made.measurement, modelHash, measurementsHash },
        ...(made.belongsTo === undefined ? {} : { belongsTo: made.belongsTo }),
        createdAt: now().toISOString(),
        demo: false,
      };
      await inside.colourPaths.add(path);
      return path;
    });
    await dropUnused(fresh, parts);
    return kept;
  } catch (error) {
    await dropUnused(fresh, parts).catch(() => undefined);
    throw error;
  }
}

/** Files that came in just now and that no record came to name: a profile bears its date, so its like is another file. */
async function dropUnused(hashes: readonly string[], { records, files }: KeepParts): Promise<void> {
  const used = new Set(
    (await records.colourPaths.list()).flatMap(({ iccHash, measurement }) => [
      iccHash,
      ...(measurement === undefined ? [] : [measurement.modelHash, measurement.measurementsHash]),
    ]),
  );
  for (const hash of hashes) if (!used.has(hash)) await files.remove(hash);
}
