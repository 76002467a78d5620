import type { Blank, CautionFacts, ForceAnswer, ForceQuestion, Press } from '#contract';
import { developBlank } from '#craft/blank';
import {
  type BrittleMaterial,
  brittleCaution,
  forceNewtons,
  fromPascal,
  newtonsFor,
  type PressDrive,
  pressurePascal,
  settingFor,
  toPascal,
} from '#craft/force';
import { Problem } from '#craft/problem';
import { cautionsFor } from './cautions-for.js';
import { short } from './estimate.js';
import { usualBody } from './usual-body.js';

const settingUnits: Record<PressDrive['kind'], string> = {
  'air-cylinder': 'bar of air',
  spring: 'turns',
  weighed: 'of its own scale',
};

/** Setting ↔ force ↔ pressure. @throws Problem `press.invalid`, `request.invalid` */
export function pressForce(question: ForceQuestion, press: Press, blank: Blank | null): ForceAnswer {
  const drive = driveOf(press);
  const areaCm2 = question.areaCm2 ?? areaOf(blank);
  const platenCm2 = (press.platenWidthMm * press.platenDepthMm) / 100;
  const { setting, newtons } = settle(question, drive, areaCm2, platenCm2);
  const pascal = pressurePascal(newtons, areaCm2, platenCm2);
  const pressureBar = fromPascal(pascal, 'bar');
  const settingUnit = settingUnits[drive.kind];
  const on = blank === null ? `${short(areaCm2)} cm²` : blank.name;
  const sentences = [
    question.setting === undefined
      ? `Set ${short(setting)} ${settingUnit} for ${bar(pressureBar)} on ${on}.`
      : `At ${short(setting)} ${settingUnit} it presses with ${bar(pressureBar)} on ${on}.`,
    `That is ${short(fromPascal(pascal, 'psi'))} psi or ${short(fromPascal(pascal, 'N/cm²'))} N/cm²: a force of ${Math.round(newtons)} N, as though ${Math.round(newtons / 9.80665)} kg lay on it.`,
  ];
  if (areaCm2 > platenCm2 * 1.02)
    sentences.push('The blank is larger than the platen: it is pressed only under it.');
  sentences.push(
    press.drive?.kind === 'weighed'
      ? 'From weighings on this press.'
      : 'Computed from the press’s parts; friction, a worn pad and an uneven piece take some of it.',
  );
  return {
    setting,
    settingUnit,
    newtons,
    areaCm2,
    pressureBar,
    pressurePsi: fromPascal(pascal, 'psi'),
    pressureNPerCm2: fromPascal(pascal, 'N/cm²'),
    sentences,
    cautions: [
      ...brittleCautions(blank),
      ...cautionsFor(blank, press.kind, press).filter(({ id }) => id === 'hot'),
    ],
  };
}

const bar = (value: number): string => `${value < 0.995 ? value.toFixed(2) : short(value)} bar`;

function settle(
  question: ForceQuestion,
  drive: PressDrive,
  areaCm2: number,
  platenCm2: number,
): { setting: number; newtons: number } {
  const { setting, pressureBar } = question;
  if ((setting === undefined) === (pressureBar === undefined))
    throw new Problem('request.invalid', 'One of setting and pressure is asked from the other.', {
      remedy: 'Give either “setting” or “pressureBar”.',
      where: 'setting',
    });
  if (setting !== undefined) return { setting, newtons: forceNewtons(drive, setting) };
  const newtons = newtonsFor(toPascal(pressureBar!, 'bar'), areaCm2, platenCm2);
  return { setting: settingFor(drive, newtons), newtons };
}

/** JSON knows no absent values that are there as undefined; the drives' types do not either. */
function driveOf(press: Press): PressDrive {
  if (press.drive === null)
    throw new Problem('press.invalid', `Nobody has said how “${press.name}” makes its force.`, {
      remedy:
        'Give its cylinder or spring in its record, or weigh it: cold, on a bathroom scale under a board, at two settings or more.',
      where: 'drive',
    });
  return JSON.parse(JSON.stringify(press.drive)) as PressDrive;
}

function areaOf(blank: Blank | null): number {
  if (blank === null)
    throw new Problem('request.invalid', 'Neither a blank nor an area was named.', {
      remedy: 'Give “blankId”, or “areaCm2”: what the platen touches.',
      where: 'areaCm2',
    });
  const { form, widthMm, heightMm } = developBlank(blank.shape);
  return ((form === 'ellipse' ? Math.PI / 4 : 1) * widthMm * heightMm) / 100;
}

/** What a bow may be before forcing it flat strains the piece too much, for its size and usual thickness. */
function brittleCautions(blank: Blank | null): CautionFacts[] {
  const material = blank?.material;
  if (blank === null || !(material === 'glass' || material === 'ceramic' || material === 'slate')) return [];
  if (blank.shape.kind === 'cylinder')
    return [
      {
        id: 'glass',
        text: 'Close the wrap only until it holds: a mug is strained where the wrap is uneven. The maker’s pressure comes first.',
        basis: 'Common practice.',
      },
    ];
  const outline = developBlank(blank.shape);
  const lengthMm = Math.max(outline.widthMm, outline.heightMm);
  const piece = { thicknessMm: usualBody(blank).thicknessMm, lengthMm };
  const bowMm = bowThatStrains(material, piece);
  const flat = brittleCaution(material, { ...piece, bowMm: 0 });
  return [
    {
      id: 'glass',
      text: `${flat.text} Lay a ruler on it: a bow of ${bowMm.toFixed(1)} mm over its length is already too much to be pressed flat.`,
      basis: flat.basis,
    },
  ];
}

/** Tension grows in proportion to the bow. */
function bowThatStrains(
  material: BrittleMaterial,
  piece: { readonly thicknessMm: number; readonly lengthMm: number },
): number {
  const bowMm = 0.001 * piece.lengthMm;
  const { flatteningMPa, careFromMPa } = brittleCaution(material, { ...piece, bowMm });
  return (bowMm * careFromMPa) / flatteningMPa;
}
