import type { Blank, HeatLook, PressKind } from '#contract';
import { inWords, short } from './estimate.js';
import type { Looked } from './look.js';

/** What the run says in plain words, what matters most first. */
export function lookWords(
  looked: Looked,
  about: {
    readonly blank: Blank;
    readonly platenC: number;
    readonly dwellSeconds: number;
  },
): string[] {
  const { facts } = looked;
  const { blank, platenC, dwellSeconds } = about;
  const sentences = [arrives(looked, platenC, dwellSeconds)];
  if (blank.coating.kind === 'none')
    sentences.push('This blank has no coat: the heat arrives, but nothing there holds the dye.');
  sentences.push(dose(looked, blank));
  if (looked.pressed.kind === 'oven')
    sentences.push('An oven heats far more slowly than a press that touches.');
  sentences.push(fiveDegrees(facts, looked.pressed.kind));
  if (facts.platenSagK >= 3)
    sentences.push(
      `The ${heaterOf(looked.pressed.kind)} sinks by ${short(facts.platenSagK)} °C when the cold blank comes; that is counted in.`,
    );
  if (facts.dryingSeconds !== null)
    sentences.push(
      `Empty cloth is dry through after about ${inWords(facts.dryingSeconds, 's')} of pressing; in damp air take longer.`,
    );
  if (['glass', 'ceramic', 'slate'].includes(blank.material) && facts.shockK >= 15)
    sentences.push(
      `One face runs ${short(facts.shockK)} °C ahead of the middle of the piece${facts.shockK >= 30 ? ': annealed glass cracks from about 40 °C' : ''}.`,
    );
  sentences.push(touch(facts));
  sentences.push(
    `One piece takes about ${short(facts.pieceWh)} Wh${looked.pressed.kind === 'oven' ? ' of heat; what the oven itself loses comes on top' : ', heating up the press not counted'}.`,
  );
  sentences.push('Computed, not measured: the maker’s instructions come first, and a ladder tells more.');
  return sentences;
}

function arrives(
  { facts, wouldArriveSeconds, mayNeverArrive, pressed }: Looked,
  platenC: number,
  dwellSeconds: number,
): string {
  const { arrivesSeconds, dyePeakC } = facts;
  if (arrivesSeconds !== null)
    return `The dye’s place reaches ${short(platenC - 10)} °C after ${inWords(arrivesSeconds, 's')}, of the ${dwellSeconds} s${mayNeverArrive ? '; maybe not at all' : ''}.`;
  const later =
    wouldArriveSeconds === null ? '' : `; within 10 °C of it would take ${short(wouldArriveSeconds)} s`;
  return `In ${dwellSeconds} s the dye’s place gets no hotter than ${inWords(dyePeakC, '°C')}, of the ${heaterOf(pressed.kind)}’s ${short(platenC)} °C${later}.`;
}

const heaterOf = (kind: PressKind): string => ({ flat: 'platen', mug: 'wrap', oven: 'oven' })[kind];

function dose({ facts, besideRecipe }: Looked, blank: Blank): string {
  const worth = `The dye gets a dose worth ${inWords(facts.doseSeconds, 's')} at 200 °C`;
  if (besideRecipe === null) return `${worth}.`;
  const { share, seconds } = besideRecipe;
  const recipe = `the recipe’s (${blank.recipe.platenC} °C, ${blank.recipe.dwellSeconds} s)`;
  if (share > 0.95 && share < 1.05) return `${worth}, as much as ${recipe}.`;
  const beside =
    share < 0.1
      ? `hardly any of ${recipe}`
      : share > 2
        ? `${short(share)} times ${recipe}`
        : `${short(share * 100)} % of ${recipe}`;
  const same = seconds === null ? '' : `; ${short(seconds)} s would give the same`;
  return `${worth}, ${beside}${same}.`;
}

function fiveDegrees({ fiveCoolerSeconds, fiveHotterSeconds }: HeatLook['facts'], kind: PressKind): string {
  const cooler =
    fiveCoolerSeconds === null ? 'more than twice the time' : `${short(fiveCoolerSeconds)} s more`;
  const hotter = fiveHotterSeconds === null ? '' : `, 5 °C too hot ${short(fiveHotterSeconds)} s less`;
  return `${kind === 'oven' ? 'An oven' : `A ${heaterOf(kind)}`} 5 °C too cool asks for ${cooler}${hotter}.`;
}

function touch({ touchableAfterSeconds, touchC }: HeatLook['facts']): string {
  if (touchableAfterSeconds === null) return `After two hours it is still above ${touchC} °C: heat gloves.`;
  if (touchableAfterSeconds < 1) return `It stays below ${touchC} °C.`;
  const time =
    touchableAfterSeconds < 100
      ? `${short(touchableAfterSeconds)} s`
      : `${short(touchableAfterSeconds / 60)} min`;
  return `It burns for about ${time} after the press, in still air, until it is below ${touchC} °C: heat gloves.`;
}
