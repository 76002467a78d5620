import type { Blank, Ladder } from '#contract';
import { type ContactEvidence, type FittedContacts, fitContacts } from '#craft/heat';
import { pressedRun } from './pressed-run.js';
import { usualBody } from './usual-body.js';

/** What the shop's own ladders tell of the joints between platen, paper and blank. */
export interface ShopContacts {
  readonly fitted: FittedContacts;
  /** What is known of them and from what, for `assumed`. */
  readonly words: string;
}

const guessed =
  'The joints between platen, paper and blank are guesses: no figures for presses were found in print';
/** Learnt by less than this share, a joint is as good as guessed. */
const worthUsing = 0.05;
/** How much more or less dose one coating wants than another: see `usualSpreads.coatingLog`. */
const coatingsDifferLog = 0.2;
const joints = ['platen', 'cover', 'transfer'];

/**
 * Joints from ladders. One ladder finds the time that works on one blank: that fixes a dose, and what was lost in the joints
 * hides in it (a slow joint and a coating that wants more look alike). Two ladders on blanks that warm up differently ask
 * for one dose in two ways, and that tells a little; how much is said. The rise of density over time alone does not tell
 * when heat arrived either: its shape is fitted, not known.
 */
export function contactsFromLadders(ladders: readonly Ladder[], blanks: readonly Blank[]): ShopContacts {
  const runs = goodRuns(ladders, blanks);
  if (runs.length === 0) return { fitted: {}, words: `${guessed}.` };
  if (runs.length === 1)
    return {
      fitted: {},
      words: `${guessed}. The ladder on ${runs[0]!.blank.name} cannot tell them alone; one on a blank that warms up quite differently could.`,
    };
  const [first, ...others] = runs;
  const evidence = others.slice(0, 3).map(
    (other): ContactEvidence => ({
      kind: 'same-dose',
      first: first!.pressCase,
      second: other.pressCase,
      sdLog: Math.hypot(coatingsDifferLog, first!.sdLog, other.sdLog),
    }),
  );
  const names = runs.slice(0, 4).map(({ blank }) => blank.name);
  const among = `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  const fit = fitContacts({ joints, evidence });
  const learnt = Math.max(...Object.values(fit.contacts).map((joint) => joint.learnt));
  if (!fit.converged || fit.misfit > 2)
    return {
      fitted: {},
      words: `${guessed}. The ladders on ${among} do not fit together in this model, so they were not used.`,
    };
  if (learnt < worthUsing)
    return {
      fitted: {},
      words: `${guessed}. The ladders on ${among} warm up too much alike to tell more.`,
    };
  const most = Object.entries(fit.contacts).reduce((a, b) => (b[1].learnt > a[1].learnt ? b : a));
  return {
    fitted: fit.contacts,
    words: `The joints are fitted to this shop’s ladders on ${among}: the one at the ${jointWords[most[0]] ?? most[0]} resists ${most[1].factor.toFixed(2)} times the guess, and ${Math.round(100 * learnt)} % of what was unknown about it is gone.`,
  };
}

const jointWords: Readonly<Record<string, string>> = {
  platen: 'platen',
  cover: 'cover paper',
  transfer: 'coating',
};

/** The newest ladder with a window of each flat blank; a mug's wrap joins otherwise. */
function goodRuns(ladders: readonly Ladder[], blanks: readonly Blank[]) {
  const seen = new Set<string>();
  const newest = [...ladders].sort((a, b) => (a.updatedAt < b.updatedAt ? 1 : -1));
  return newest.flatMap(({ blankId, window }) => {
    const blank = blanks.find(({ id }) => id === blankId);
    if (blank === undefined || blank.shape.kind === 'cylinder' || blank.coating.kind === 'none') return [];
    if (window === null || window.recipe.probabilityWithin < 0.75 || seen.has(blankId)) return [];
    seen.add(blankId);
    const { platenC, dwellSeconds, middleSeconds } = window.recipe;
    const pressCase = pressedRun({
      blank,
      body: usualBody(blank),
      press: null,
      platenC,
      dwellSeconds,
      pressure: blank.recipe.pressure,
    });
    // Nine in ten lie between low and high.
    const sdLog = Math.max(0.02, Math.log(middleSeconds.high / middleSeconds.low) / 3.29);
    return [{ blank, pressCase, sdLog }];
  });
}
