/** A person with a grey sheet before her, who sees about as much as can just be noticed (noise of 1 ΔE). */
import type { TestSheet } from '#contract';
import { deltaE00, labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import { createRandom } from '#craft/numerics';
import type { VirtualPrinter } from './virtual-printer.js';

/** What she picks of the sheet that the program drew; a grey card beside it reflects 18 %, L* 49.5. */
export function picksOf({ id, grey }: Pick<TestSheet, 'id' | 'grey'>, printer: VirtualPrinter, seed: number) {
  if (grey === null) throw new Error('not a grey sheet');
  const random = createRandom(seed);
  const noise = (): number => 0.7 * random.normal();
  const white = xyzFromLab(printer.print([[1, 1, 1]])[0]!);
  const seen = (rgb: Triple): Triple3 =>
    labFromXyz(xyzFromLab(printer.print([rgb.map((v) => v / 255) as Triple3])[0]!), white);
  const least = <T>(items: readonly T[], of: (item: T) => number): T =>
    items.map((item) => ({ item, v: of(item) })).reduce((best, one) => (one.v < best.v ? one : best)).item;
  const steps = (question: string) => grey.tone.find((row) => row.question === question)!.steps;
  const told = (question: string, from: Triple): string =>
    (
      steps(question).find(
        ({ deviceRgb }) => deltaE00(seen(deviceRgb), seen(from)) > 1 + 0.3 * random.normal(),
      ) ?? steps(question).at(-1)!
    ).label;
  return {
    sheetId: id,
    neutrals: grey.rows.map(
      ({ candidates }) =>
        least(candidates, ({ deviceRgb }) => {
          const [, a, b] = seen(deviceRgb);
          return Math.hypot(a + noise(), b + noise());
        }).label,
    ),
    fromBlack: told('from-black', [0, 0, 0]),
    fromWhite: told('from-white', [255, 255, 255]),
    likeCard: least(steps('like-card'), ({ deviceRgb }) => Math.abs(seen(deviceRgb)[0] - 49.5 + noise()))
      .label,
  };
}
