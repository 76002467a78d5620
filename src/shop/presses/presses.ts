import { randomUUID } from 'node:crypto';
import {
  type EstimateFacts,
  type PlatenCheck,
  type Press,
  platenCheckInputSchema,
  pressSchema,
} from '#contract';
import { platenTruth, wrapSides } from '#craft/evenness';
import { expectSameId, expectUnchanged, type SaveOptions } from '#shop/catalogue';
import { missing, type Records } from '#shop/store';
import { checked } from '#shop/validate';
import { assertPressMakesSense, assertReadingsMakeSense } from './check-press.js';

/** How far the true temperature is from the set one, by the newest check. */
export interface PressOffset {
  /** True less set, K; null: never measured. */
  readonly offsetK: EstimateFacts | null;
  readonly checkId: string | null;
  readonly pressName: string | null;
}

export class Presses {
  constructor(
    private readonly records: Records,
    private readonly now: () => Date,
  ) {}

  list(): Promise<Press[]> {
    return this.records.presses.list();
  }

  /** Errors: record.missing. */
  async get(id: string): Promise<Press> {
    const press = await this.records.presses.get(id);
    if (press === undefined) throw missing('press', id);
    return press;
  }

  /** Adds or replaces the press of that id; its checks stay. Errors: press.invalid, record.changed. */
  async save(id: string, value: unknown, options: SaveOptions = {}): Promise<Press> {
    const press = checked(pressSchema, value, 'The press cannot be kept', 'press.invalid');
    expectSameId(id, press.id);
    assertPressMakesSense(press);
    return this.records.together(async (records) => {
      expectUnchanged(await records.presses.get(press.id), options.expected);
      await records.presses.put(press, this.now().toISOString());
      return press;
    });
  }

  /** Its checks go with it; ladders and readings of evenness stay, and keep its name. Errors: record.missing. */
  async remove(id: string): Promise<void> {
    if (!(await this.records.presses.remove(id))) throw missing('press', id);
  }

  /** Newest first. Errors: record.missing for a press that is gone. */
  async checks(id: string): Promise<PlatenCheck[]> {
    await this.get(id);
    return this.records.platenChecks.list(id);
  }

  /** Temperatures as they were read become an offset and a map. Errors: press.invalid, press.unsafe, record.missing. */
  async addCheck(id: string, value: unknown): Promise<PlatenCheck> {
    const press = await this.get(id);
    const input = checked(platenCheckInputSchema, value, 'The temperatures cannot be kept', 'press.invalid');
    assertReadingsMakeSense(input);
    const truth = platenTruth(input, {
      widthMm: press.platenWidthMm,
      depthMm: press.platenDepthMm,
      sides: press.kind === 'mug' ? wrapSides : undefined,
    });
    const unit = 'K' as const;
    const check: PlatenCheck = {
      ...input,
      id: randomUUID(),
      pressId: press.id,
      offsetK: truth.offsetK,
      spreadK: truth.spreadK,
      map: truth.map,
      findings: truth.found.map((found) => ({ ...found, unit })),
      sentences: truth.sentences,
      createdAt: this.now().toISOString(),
    };
    await this.records.platenChecks.put(check);
    return check;
  }

  /** Errors: record.missing. */
  async removeCheck(id: string, checkId: string): Promise<void> {
    const check = await this.records.platenChecks.get(checkId);
    if (check?.pressId !== id) throw missing('platen check', checkId);
    await this.records.platenChecks.remove(checkId);
  }

  /** Null: no press is named. Errors: record.missing for a press that is gone. */
  async offset(id: string | null): Promise<PressOffset> {
    if (id === null) return { offsetK: null, checkId: null, pressName: null };
    const press = await this.get(id);
    const [newest] = await this.records.platenChecks.list(id);
    return { offsetK: newest?.offsetK ?? null, checkId: newest?.id ?? null, pressName: press.name };
  }
}
