import type { LadderPlanFacts } from '#contract';
import { developBlank } from '#craft/blank';
import { newtonsFor, settingFor, toPascal } from '#craft/force';
import { isProblem } from '#craft/problem';
import { celsiusToFahrenheit } from '#craft/units';
import type { CouponTable, TicketFigure } from '#shop/render';
import type { PreparedTestSheet } from './prepare-test-sheet.js';

type Coupon = LadderPlanFacts['coupons'][number];

/** The coupons in the order to press, with where the temperature changes. */
export function couponTable(prepared: PreparedTestSheet, ladder: LadderPlanFacts): CouponTable {
  const { blank, press } = prepared;
  const varies = ladder.factors.includes('pressure');
  const settings = ladder.coupons.map(({ step }) =>
    step.pressureBar === undefined ? null : settingWords(prepared, step.pressureBar),
  );
  return {
    notes: [
      `Press from the top down${ladder.pressName === null ? '' : ` on “${ladder.pressName}”`}; go on only when the platen has settled. What differs from the plan, write down: it counts as much.`,
      'Hot platen, hot pieces: read “Take care” on page 2 before you begin.',
      ...pressureNotes(ladder, blank.recipe.pressure, settings[0] ?? null),
      ...(varies && settings.some((one) => one !== null)
        ? [`The press’s settings are for the whole face of one “${blank.name}”, not for the coupon alone.`]
        : []),
      ...trueNotes(ladder, press === null),
    ],
    rows: ladder.coupons.map((coupon, i) => ({
      number: coupon.number,
      before: changeWords(ladder.coupons[i - 1], coupon),
      set: degrees(coupon.setC),
      time: `${coupon.step.dwellSeconds} s`,
      pressure: varies ? { large: `${coupon.step.pressureBar} bar`, small: settings[i] ?? '' } : null,
    })),
  };
}

const fahrenheit = (celsius: number): number => Math.round(celsiusToFahrenheit(celsius));
const degrees = (setC: number): TicketFigure => ({ large: `${setC} °C`, small: `${fahrenheit(setC)} °F` });

function changeWords(before: Coupon | undefined, { setC }: Coupon): string | null {
  if (before === undefined) return `Set ${setC} °C and wait until the platen has settled there.`;
  if (before.setC === setC) return null;
  return `Now set ${setC} °C, ${Math.abs(setC - before.setC)} °C ${setC > before.setC ? 'more' : 'less'}: wait until the platen has settled.`;
}

function pressureNotes({ factors, start }: LadderPlanFacts, words: string, setting: string | null): string[] {
  if (factors.includes('pressure')) return [];
  if (start.pressureBar === undefined)
    return [`The pressure stays alike for all, ${words} as usual for this blank: leave it as it is.`];
  return [
    `The pressure stays alike for all: ${start.pressureBar} bar on the blank${setting === null ? '' : ` (${setting})`}.`,
  ];
}

function trueNotes({ offsetK }: LadderPlanFacts, isUnnamed: boolean): string[] {
  const off = Math.round(Math.abs(offsetK ?? 0));
  if (offsetK !== null && off > 0)
    return [
      `What to set is corrected: by its latest check this press is ${off} °C ${offsetK < 0 ? 'cooler' : 'hotter'} than it says.`,
    ];
  if (offsetK !== null) return [];
  return [`Nobody has measured ${isUnnamed ? 'the press' : 'this press'}: its display is taken as true.`];
}

/** What makes so much pressure on the blank's face, where the press's drive is known and can. */
function settingWords({ blank, press }: PreparedTestSheet, pressureBar: number): string | null {
  const drive = press?.press.drive ?? null;
  if (press === null || drive === null || press.press.kind !== 'flat') return null;
  const { widthMm, heightMm } = developBlank(blank.shape);
  const share = blank.shape.kind === 'ellipse' ? Math.PI / 4 : 1;
  const platenCm2 = (press.press.platenWidthMm * press.press.platenDepthMm) / 100;
  try {
    const newtons = newtonsFor(toPascal(pressureBar, 'bar'), (share * widthMm * heightMm) / 100, platenCm2);
    const setting = settingFor(drive, newtons);
    const unit = { 'air-cylinder': 'gauge', spring: 'turns', weighed: 'setting' }[drive.kind];
    const figure = setting.toFixed(setting < 10 ? 1 : 0);
    return drive.kind === 'air-cylinder' ? `${unit} ${figure} bar` : `${unit} ${figure}`;
  } catch (error) {
    if (isProblem(error)) return null;
    throw error;
  }
}
