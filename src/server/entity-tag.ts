import { z } from 'zod';
import { digestOf } from '#shop/store';

/** `If-Match` as sent with a change: the entity tag that came with the record, when the sender wants to be sure. */
export const ifMatch = z.object({ 'if-match': z.string().max(100).optional() });

export const removed = z.null().describe('Removed');

export function entityTag(record: unknown): string {
  return `"${digestOf(record)}"`;
}

/** The digest that `If-Match` names; undefined: any will do. */
export function expected(header: string | undefined): string | undefined {
  return header === undefined || header === '*' ? undefined : header.replace(/^W\//, '').replaceAll('"', '');
}
