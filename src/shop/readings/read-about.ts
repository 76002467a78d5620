import { z } from 'zod';
import { readBackSubjectSchema } from '#contract';
import { Problem } from '#craft/problem';
import { parseSheetId } from '#craft/sheet';
import { displayFileName } from '#shop/artwork';
import { checked } from '#shop/validate';
import type { CardGiven } from './choose-map.js';

/** What a person says of a picture; all of it may be left out, and any value may come. */
export interface ReadAbout {
  readonly fileName: string;
  readonly subject?: unknown;
  readonly sheetId?: unknown;
  readonly readerId?: unknown;
  readonly from?: unknown;
  readonly card?: { readonly corners: unknown; readonly values: Uint8Array } | undefined;
}

/** The same, understood. Empty words, as forms send them, are none. */
export interface CheckedAbout {
  readonly fileName: string;
  readonly subject: 'paper' | 'piece' | undefined;
  readonly sheetId: string | undefined;
  readonly readerId: string | undefined;
  readonly from: 'scan' | 'photo' | undefined;
  readonly card: CardGiven | undefined;
}

const word = <Schema extends z.ZodType>(schema: Schema) =>
  z.preprocess((value) => (value === '' ? undefined : value), schema.optional());
const aboutSchema = z.object({
  subject: word(readBackSubjectSchema),
  sheetId: word(z.string().max(40)),
  readerId: word(z.string().max(64)),
  from: word(z.enum(['scan', 'photo'])),
});
const cornersSchema = z.array(z.tuple([z.number(), z.number()])).length(4);

/** Errors: request.invalid naming the field. */
export function checkedAbout(about: ReadAbout): CheckedAbout {
  const { subject, sheetId, readerId, from } = checked(aboutSchema, about, 'The reading cannot be made');
  const { card } = about;
  return {
    fileName: about.fileName.trim() === '' ? 'picture' : displayFileName(about.fileName),
    subject,
    sheetId: sheetId === undefined ? undefined : sheetIdOf(sheetId),
    readerId,
    from,
    card:
      card === undefined
        ? undefined
        : {
            corners: checked(cornersSchema, card.corners, 'The corners of the card cannot be understood'),
            values: card.values,
          },
  };
}

function sheetIdOf(typed: string): string {
  const id = parseSheetId(typed);
  if (id !== null) return id;
  throw new Problem('request.invalid', `“${typed.slice(0, 40)}” is not the number of a sheet.`, {
    remedy: 'Type it as it stands beside the square code, ten letters and digits.',
    where: 'sheetId',
  });
}
