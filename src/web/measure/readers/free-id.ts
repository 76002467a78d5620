/** An id made of the name, and not yet taken. */
export function freeId(name: string, taken: readonly { readonly id: string }[]): string {
  const plain =
    name
      .normalize('NFKD')
      .replace(/\p{M}/gu, '')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 50)
      .replace(/-+$/, '') || 'reader';
  const isTaken = (id: string) => taken.some((one) => one.id === id);
  if (!isTaken(plain)) return plain;
  let count = 2;
  while (isTaken(`${plain}-${count}`)) count += 1;
  return `${plain}-${count}`;
}
