import {
  type ForceAnswer,
  forceQuestionSchema,
  type HeatCurve,
  type HeatLook,
  heatQuestionSchema,
  heatStackSchema,
} from '#contract';
import { type Material, materials, usualSpreads } from '#craft/heat';
import type { Presses } from '#shop/presses';
import { digestOf, missing, type Records } from '#shop/store';
import { checked } from '#shop/validate';
import { cautionsFor } from './cautions-for.js';
import { lookAt } from './look.js';
import { lookWords } from './look-words.js';
import { pressForce } from './press-force.js';
import { type PressedRunRequest, pressedRun } from './pressed-run.js';
import { runStack } from './run-stack.js';
import { contactsFromLadders, type ShopContacts } from './shop-contacts.js';
import { usualBody } from './usual-body.js';

/** Cover sheet and print are both paper: what each is there for tells them apart. */
const layerName = (id: string, { name }: Material): string =>
  id === 'paper'
    ? 'Printed paper'
    : id === 'cover' && name === materials.paper.name
      ? 'Cover sheet, paper'
      : name;

export interface HeatDeskParts {
  readonly records: Records;
  readonly presses: Pick<Presses, 'get' | 'offset'>;
}

/** Questions to the model of heat. */
export class HeatDesk {
  #contacts: { readonly key: string; readonly contacts: ShopContacts } | null = null;

  constructor(private readonly parts: HeatDeskParts) {}

  /** A blank in a press: courses, facts, sentences. Errors: request.invalid, record.missing, press.invalid, press.unsafe. */
  async look(value: unknown): Promise<HeatLook> {
    const question = checked(heatQuestionSchema, value, 'The question cannot be understood');
    const blank = await this.parts.records.blanks.get(question.blankId);
    if (blank === undefined) throw missing('blank', question.blankId);
    const press = question.pressId === undefined ? null : await this.parts.presses.get(question.pressId);
    const { recipe } = blank;
    const { platenC = recipe.platenC, dwellSeconds = recipe.dwellSeconds } = question;
    const body = usualBody(blank, question.thicknessMm);
    const asked: PressedRunRequest = {
      blank,
      body,
      press,
      platenC,
      dwellSeconds,
      pressure: question.pressure ?? recipe.pressure,
      prePressSeconds: question.prePressSeconds,
      coolSeconds: question.coolSeconds,
      blankStartC: question.blankStartC,
      roomC: question.roomC,
      ...(question.bothSides === undefined ? {} : { bothSides: question.bothSides }),
      ...(question.faceDown === undefined ? {} : { faceDown: question.faceDown }),
    };
    const usual: PressedRunRequest = {
      blank,
      body,
      press: press?.kind === 'oven' ? null : press,
      platenC: recipe.platenC,
      dwellSeconds: recipe.dwellSeconds,
      pressure: recipe.pressure,
    };
    const contacts = await this.contacts();
    const truth = await this.truth(question.pressId ?? null);
    const looked = lookAt({
      blank,
      body,
      platenC,
      dwellSeconds,
      make: (times = {}) => pressedRun({ ...asked, ...times }),
      byRecipe: isOtherThan(usual, asked) ? pressedRun(usual) : null,
      platenSdK: truth.sdK,
      fitted: contacts.fitted,
    });
    const { pressed, seconds, courses, phases, facts } = looked;
    return {
      question,
      sentences: lookWords(looked, { blank, platenC, dwellSeconds }),
      seconds,
      courses,
      phases,
      layers: pressed.run.layers.map(({ id, material, thicknessMm }) => ({
        id,
        name: layerName(id, material),
        thicknessMm,
        basis: material.basis,
      })),
      facts,
      cautions: cautionsFor(blank, pressed.kind, press),
      assumed: [
        ...pressed.assumed,
        contacts.words,
        truth.words,
        'The dye’s activation energy: 90 kJ/mol, known within a third (no figure for the transfer was found in print).',
        'Ranges hold nine in ten of the worlds tried.',
      ],
    };
  }

  /** A stack of one's own. Errors: request.invalid, press.invalid, press.unsafe. */
  async run(value: unknown): Promise<HeatCurve> {
    return runStack(checked(heatStackSchema, value, 'The stack cannot be understood'));
  }

  /** What a press pushes with on a blank. Errors: request.invalid, record.missing, press.invalid. */
  async force(value: unknown): Promise<ForceAnswer> {
    const question = checked(forceQuestionSchema, value, 'The question cannot be understood');
    const press = await this.parts.presses.get(question.pressId);
    const blank =
      question.blankId === undefined ? null : await this.parts.records.blanks.get(question.blankId);
    if (blank === undefined) throw missing('blank', question.blankId ?? '');
    return pressForce(question, press, blank);
  }

  /** The joints, as far as the shop's own ladders tell them. */
  async contacts(): Promise<ShopContacts> {
    const ladders = await this.parts.records.ladders.list();
    const blanks = ladders.length === 0 ? [] : await this.parts.records.blanks.list();
    const key = digestOf([ladders.map(({ sheetId, window }) => [sheetId, window?.recipe]), blanks]);
    if (this.#contacts?.key !== key) this.#contacts = { key, contacts: contactsFromLadders(ladders, blanks) };
    return this.#contacts.contacts;
  }

  /** How well the platen's true temperature is known, by the last check of the press. */
  async truth(pressId: string | null): Promise<{ readonly sdK: number; readonly words: string }> {
    const { offsetK, pressName } = await this.parts.presses.offset(pressId);
    if (offsetK === null)
      return {
        sdK: usualSpreads.platenK,
        words: `The platen’s true temperature: known within about ${Math.round(1.645 * usualSpreads.platenK)} °C${pressName === null ? '' : `, since “${pressName}” was never checked`} (a judgement).`,
      };
    const sdK = Math.max(0.5, (offsetK.high - offsetK.low) / 3.29);
    return {
      sdK,
      words: `The platen’s true temperature: known within ${Math.round(1.645 * sdK)} °C, from the last check of “${pressName}”.`,
    };
  }
}

function isOtherThan(usual: PressedRunRequest, asked: PressedRunRequest): boolean {
  return (
    usual.press !== asked.press ||
    usual.platenC !== asked.platenC ||
    usual.dwellSeconds !== asked.dwellSeconds ||
    usual.pressure !== asked.pressure ||
    asked.bothSides !== undefined ||
    asked.faceDown !== undefined ||
    (asked.blankStartC ?? 21) !== 21 ||
    (asked.prePressSeconds ?? 0) > 0
  );
}
