/** How something is printed and pressed, as far as a colour path depends on it. The fields are those of the records. */
export interface PrintRoute {
  readonly setup: {
    readonly printer: string;
    readonly ink: string;
    readonly paper: { readonly name: string };
    readonly driverSettings: readonly string[];
    readonly mirroredBy: 'sheet' | 'driver';
  };
  readonly blank: {
    readonly name: string;
    readonly material: string;
    readonly coating: { readonly kind: string; readonly side: string };
    readonly polyesterPercent: number | null;
    readonly recipe: { readonly platenC: number; readonly dwellSeconds: number; readonly pressure: string };
  };
}

export type RouteChangeKind = 'printer' | 'ink' | 'paper' | 'driver' | 'mirroring' | 'blank' | 'recipe';

export interface RouteChange {
  readonly what: RouteChangeKind;
  /** stale: colours will differ. look: they may. */
  readonly weight: 'look' | 'stale';
  /** With what was then and what is now. */
  readonly sentence: string;
}

/** Press settings within these of each other press alike; beyond the second they do not (common practice). */
const alike = { platenC: 4, dwellShare: 0.1 };
const far = { platenC: 10, dwellShare: 0.3 };

/** What has changed between then and now, the parts both know of. */
export function routeChanges(then: Partial<PrintRoute>, now: Partial<PrintRoute>): RouteChange[] {
  const changes: RouteChange[] = [];
  if (then.setup !== undefined && now.setup !== undefined)
    changes.push(...setupChanges(then.setup, now.setup));
  if (then.blank !== undefined && now.blank !== undefined)
    changes.push(...blankChanges(then.blank, now.blank));
  return changes;
}

function setupChanges(then: PrintRoute['setup'], now: PrintRoute['setup']): RouteChange[] {
  const out: RouteChange[] = [];
  const word = (what: RouteChangeKind, thing: string, a: string, b: string): void => {
    if (!same(a, b)) {
      out.push({ what, weight: 'stale', sentence: `The ${thing} has changed: “${a}” then, “${b}” now.` });
    }
  };
  word('printer', 'printer', then.printer, now.printer);
  word('ink', 'ink', then.ink, now.ink);
  word('paper', 'paper', then.paper.name, now.paper.name);
  const gone = then.driverSettings.filter((one) => !now.driverSettings.some((other) => same(one, other)));
  const come = now.driverSettings.filter((one) => !then.driverSettings.some((other) => same(one, other)));
  if (gone.length + come.length > 0) {
    const list = (words: readonly string[]): string =>
      words.length === 0 ? 'nothing of it' : words.map((one) => `“${one}”`).join(', ');
    out.push({
      what: 'driver',
      weight: 'stale',
      sentence: `The driver settings have changed: ${list(gone)} then, ${list(come)} now.`,
    });
  }
  if (then.mirroredBy !== now.mirroredBy) {
    const who = { sheet: 'the sheet was mirrored here', driver: 'the driver mirrored' };
    const whoNow = { sheet: 'the sheet is mirrored here', driver: 'the driver mirrors' };
    out.push({
      what: 'mirroring',
      weight: 'look',
      sentence: `Mirroring has changed: ${who[then.mirroredBy]} then, ${whoNow[now.mirroredBy]} now. Colour should stay; a driver that mirrors may use other settings.`,
    });
  }
  return out;
}

function blankChanges(then: PrintRoute['blank'], now: PrintRoute['blank']): RouteChange[] {
  const out: RouteChange[] = [];
  const body = (blank: PrintRoute['blank']): string =>
    `${blank.name} (${blank.material}, ${coatingWords[blank.coating.kind] ?? blank.coating.kind})`;
  const otherBody =
    then.material !== now.material ||
    then.coating.kind !== now.coating.kind ||
    (then.polyesterPercent ?? 100) - (now.polyesterPercent ?? 100) > 5 ||
    (now.polyesterPercent ?? 100) - (then.polyesterPercent ?? 100) > 5;
  if (otherBody) {
    out.push({
      what: 'blank',
      weight: 'stale',
      sentence: `The blank is of another kind: ${body(then)} then, ${body(now)} now.`,
    });
  } else if (!same(then.name, now.name) || !same(then.coating.side, now.coating.side)) {
    out.push({
      what: 'blank',
      weight: 'look',
      sentence: `Another blank of the same kind: ${then.name} then, ${now.name} now. Their coats and whites may differ.`,
    });
  }
  const recipe = recipeChange(then.recipe, now.recipe);
  // Another kind of blank is pressed otherwise for good reason; that it is another has been said.
  if (recipe !== null && !otherBody) out.push(recipe);
  return out;
}

type Recipe = PrintRoute['blank']['recipe'];

function recipeChange(then: Recipe, now: Recipe): RouteChange | null {
  const hotter = Math.abs(now.platenC - then.platenC);
  const longer = Math.abs(now.dwellSeconds - then.dwellSeconds) / then.dwellSeconds;
  const pressure = then.pressure !== now.pressure;
  if (hotter <= alike.platenC && longer <= alike.dwellShare && !pressure) return null;
  const words = (recipe: Recipe): string =>
    `${recipe.platenC} °C, ${recipe.dwellSeconds} s, ${recipe.pressure} pressure`;
  return {
    what: 'recipe',
    weight: hotter > far.platenC || longer > far.dwellShare ? 'stale' : 'look',
    sentence: `The recipe has changed: ${words(then)} then, ${words(now)} now.`,
  };
}

const coatingWords: Readonly<Record<string, string>> = {
  polymer: 'polymer coat',
  fibre: 'polyester cloth',
  none: 'no coating',
};

const same = (a: string, b: string): boolean => plain(a) === plain(b);
const plain = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, ' ');
