import type { TestSheetKind } from '#contract';

const folders: Readonly<Partial<Record<TestSheetKind, string>>> = {
  ladder: 'press/ladders',
  evenness: 'press/evenness',
};

/** Where a person finds a test sheet on the page served at `address`. */
export function testSheetPage(
  address: string,
  { order, sheetId }: { readonly order: { readonly kind: TestSheetKind }; readonly sheetId: string },
): string {
  return `${address}/${folders[order.kind] ?? 'measure/sheets'}/${sheetId}`;
}
