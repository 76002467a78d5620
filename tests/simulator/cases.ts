import type { FrameVariant } from '#craft/sheet';
import { newSheetId, type PlannedFrame, planFrame } from '#craft/sheet';
import { type Camera, photograph } from './camera.js';
import { type Chance, chanceOf } from './chance.js';
import { type Encoding, type Picture, toFile } from './picture.js';
import { drive, ink, press } from './print.js';
import { type Scanner, scan } from './scanner.js';
import { writeMarks } from './write-marks.js';

/** A written sheet and what is true of it. */
export interface WrittenSheet {
  readonly sheetId: string;
  readonly mirrorOnWriting: boolean;
  readonly frame: PlannedFrame;
  readonly picture: Picture;
}

export async function writeSheet(
  seed: number,
  options: {
    readonly widthMm: number;
    readonly heightMm: number;
    readonly ppi: number;
    readonly mirror: boolean;
    readonly variant?: FrameVariant;
    readonly busy?: boolean;
  },
): Promise<WrittenSheet> {
  const { widthMm, heightMm, ppi, mirror, variant, busy = true } = options;
  const sheetId = newSheetId(Uint8Array.from([seed, 77, seed * 3, 5, 200 - seed, seed * 11]));
  const frame = planFrame({ sheetId, widthMm, heightMm, marginMm: 3, mirrorOnWriting: mirror, variant });
  if (!frame.frame) throw new Error(frame.reason);
  const picture = await writeMarks(frame, widthMm, heightMm, ppi, {
    mirror,
    ...(busy ? { artworkSeed: seed } : {}),
  });
  return { sheetId, mirrorOnWriting: mirror, frame, picture };
}

/** What a right reading of a case says. */
export interface Truth {
  readonly sheetId: string;
  readonly fileMirrored: boolean;
  readonly seenMirrored: boolean;
  readonly mirroring: 'right' | 'not-mirrored' | 'mirrored-twice';
  /** Percent; null for photographs. */
  readonly scale: { readonly across: number; readonly along: number } | null;
}

export interface Route {
  readonly driverMirrors: boolean;
  readonly scaleAcross: number;
  readonly scaleAlong: number;
  readonly subject: 'paper' | 'piece';
  readonly shrink: number;
}

/** Print, and press when it is the piece that is looked at. */
export function printed(sheet: WrittenSheet, route: Route): Picture {
  const { driverMirrors: mirrors, scaleAcross, scaleAlong } = route;
  const beyond = Math.max(scaleAcross, scaleAlong) > 1 ? 4 : 0;
  const paper = ink(drive(sheet.picture, { mirrors, scaleAcross, scaleAlong, paperBeyondMm: beyond }));
  return route.subject === 'paper' ? paper : press(paper, { shrink: route.shrink });
}

export function truthOf(sheet: WrittenSheet, route: Route, scanned: boolean): Truth {
  const onPaper = sheet.mirrorOnWriting !== route.driverMirrors;
  const shrink = route.subject === 'piece' ? route.shrink : 1;
  return {
    sheetId: sheet.sheetId,
    fileMirrored: sheet.mirrorOnWriting,
    seenMirrored: route.subject === 'paper' ? onPaper : !onPaper,
    mirroring: onPaper ? 'right' : sheet.mirrorOnWriting ? 'mirrored-twice' : 'not-mirrored',
    scale: scanned
      ? { across: 100 * route.scaleAcross * shrink, along: 100 * route.scaleAlong * shrink }
      : null,
  };
}

export interface Case {
  readonly name: string;
  readonly file: Buffer;
  readonly subject: 'paper' | 'piece';
  readonly truth: Truth;
}

/** One case out of very many: any route, any lie of the sheet, any ordinary fault of scan or photo. */
export async function randomCase(sheets: readonly WrittenSheet[], seed: number): Promise<Case> {
  const chance = chanceOf(seed * 7919 + 17);
  const sheet = chance.pick(sheets);
  const subject = chance.pick(['paper', 'paper', 'piece'] as const);
  const scale = chance.pick([1, 1, 0.97, 0.943, 1.032]);
  const route: Route = {
    driverMirrors: chance.next() < 0.5,
    scaleAcross: scale,
    scaleAlong: chance.next() < 0.2 ? scale * 0.985 : scale,
    subject,
    shrink: chance.pick([1, 0.994]),
  };
  const paper = printed(sheet, route);
  const scanned = chance.next() < 0.5;
  const truth = truthOf(sheet, route, scanned);
  if (scanned) {
    const scanner = randomScanner(chance, seed);
    const encoding: Encoding = chance.pick([
      { format: 'png', ppi: scanner.ppi },
      { format: 'jpeg', quality: 75, ppi: scanner.ppi },
      { format: 'tiff', ppi: scanner.ppi },
    ]);
    const file = await toFile(scan(paper, scanner), encoding);
    return { name: `seed ${seed}, scan, ${subject}`, file, subject, truth };
  }
  const camera = randomCamera(chance, seed);
  const quality = chance.pick([30, 60, 85]);
  const file = await toFile(photograph(paper, camera), { format: 'jpeg', quality, camera: true });
  return { name: `seed ${seed}, photo q${quality}, ${subject}`, file, subject, truth };
}

function randomScanner(chance: Chance, seed: number): Scanner {
  return {
    ppi: chance.pick([150, 200, 300]),
    turnDegrees: chance.pick([0, 90, 180, 270]) + chance.between(-4, 4),
    blurPixels: chance.between(0.3, 0.9),
    noise: chance.between(0.002, 0.02),
    dust: Math.floor(chance.between(0, 40)),
    gamma: chance.between(0.8, 1.25),
    alongError: chance.between(-0.0005, 0.0005),
    lid: chance.pick([0.9, 0.9, 0.05]),
    seed,
  };
}

function randomCamera(chance: Chance, seed: number): Camera {
  return {
    widthPixels: 1500,
    heightPixels: 1500,
    tilt: chance.between(-25, 25),
    pan: chance.between(-25, 25),
    roll: chance.between(0, 360),
    fill: chance.between(0.75, 0.95),
    cast: [1, chance.between(0.85, 1), chance.between(0.6, 1)],
    vignetting: chance.between(0.1, 0.5),
    glare: chance.pick([0, 0, 0.3, 0.8]),
    shadow: chance.pick([0, 0, 0.5]),
    blurPixels: chance.between(0.5, 1.2),
    noise: chance.between(0.005, 0.03),
    exposure: chance.pick([0.9, 0.9, 0.5, 0.15]),
    seed,
  };
}
