export type Given = 'picture' | 'measurements';

/** A picture to read, or an instrument's text; by what the browser says, then by its name. */
export function kindOfFile(file: { readonly name: string; readonly type: string }): Given {
  if (file.type.startsWith('image/')) return 'picture';
  if (file.type.startsWith('text/') || /\.(txt|csv|cgats|tsv)$/i.test(file.name)) return 'measurements';
  return 'picture';
}
