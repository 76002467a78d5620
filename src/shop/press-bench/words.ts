/** '3', '3 and 7', '1, 3 and 7'. */
export function listed(items: readonly (string | number)[]): string {
  if (items.length < 2) return String(items[0] ?? '');
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

export const plural = (count: number, one: string, many = `${one}s`): string => (count === 1 ? one : many);
