/** Rows of the database as the records that their JSON holds; this program alone wrote it. */
export function row<T>(found: { json: string } | undefined): T | undefined {
  return found && (JSON.parse(found.json) as T);
}

export function rows<T>(found: { json: string }[]): T[] {
  return found.map((one) => JSON.parse(one.json) as T);
}

export function removed(result: { numDeletedRows: bigint } | undefined): boolean {
  return (result?.numDeletedRows ?? 0n) > 0n;
}
