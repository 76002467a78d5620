import { type PlatenCheckInput, platenCheckInputSchema } from '#contract';
import { fahrenheitToCelsius } from '#craft/units';
import { issueWords } from '../words/index.js';

/** Temperatures as they are being typed, in the person's unit. */
export interface CheckDraft {
  readonly method: PlatenCheckInput['method'];
  readonly setC: number | null;
  readonly emissivitySet: number | null;
  readonly instrumentK: number | null;
  readonly columns: number;
  readonly rows: number;
  readonly texts: readonly string[];
  readonly note: string;
}

export const emptyDraft: CheckDraft = {
  method: 'probe',
  setC: null,
  emissivitySet: 0.95,
  instrumentK: null,
  columns: 3,
  rows: 3,
  texts: [],
  note: '',
};

/** A figure as people write it: '203', '203.5', '203,5'; null: empty; undefined: no figure. */
export function readFigure(text: string): number | null | undefined {
  const plain = text
    .trim()
    .replace(',', '.')
    .replace(/\s*°?\s*[CF]$/i, '');
  if (plain === '') return null;
  const value = Number(plain);
  return Number.isFinite(value) ? value : undefined;
}

const outside = (unit: 'C' | 'F'): string =>
  unit === 'C' ? 'From 20 to 300 °C, or nothing.' : 'From 68 to 572 °F, or nothing.';

/** What to send, or what is wrong with each field by its name ('setC', 'celsius.4'). */
export function readDraft(
  draft: CheckDraft,
  unit: 'C' | 'F',
): { readonly input: PlatenCheckInput } | { readonly complaints: Readonly<Record<string, string>> } {
  const complaints: Record<string, string> = {};
  const celsius = Array.from({ length: draft.columns * draft.rows }, (_, i) => {
    const figure = readFigure(draft.texts[i] ?? '');
    if (figure === undefined) complaints[`celsius.${i}`] = 'A figure is wanted here, or nothing.';
    return figure === null || figure === undefined || unit === 'C'
      ? (figure ?? null)
      : Number(fahrenheitToCelsius(figure).toFixed(2));
  });
  if (draft.setC === null) complaints.setC = 'Say what the display was set to.';
  if (celsius.every((value) => value === null) && Object.keys(complaints).every((key) => key === 'setC')) {
    complaints.celsius = 'Type at least one temperature.';
  }
  const checked = platenCheckInputSchema.safeParse({
    setC: draft.setC,
    method: draft.method,
    ...(draft.method === 'infra-red' && draft.emissivitySet !== null
      ? { emissivitySet: draft.emissivitySet }
      : {}),
    ...(draft.instrumentK === null ? {} : { instrumentK: draft.instrumentK }),
    columns: draft.columns,
    rows: draft.rows,
    celsius,
    note: draft.note,
  });
  if (!checked.success) {
    for (const issue of checked.error.issues) {
      complaints[issue.path.join('.')] ??=
        issue.path[0] === 'celsius'
          ? outside(unit)
          : issueWords(issue, { lengthUnit: 'mm', temperatureUnit: unit });
    }
  }
  return checked.success && Object.keys(complaints).length === 0 ? { input: checked.data } : { complaints };
}
