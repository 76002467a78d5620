import { spawnSync } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { TicketRequest } from '../types.js';
import { writeTicket } from './ticket.js';
import { duration, temperature } from './words.js';

let folder: string;
let picture: Buffer;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'ticket-'));
  picture = await sharp({ create: { width: 300, height: 120, channels: 3, background: '#357' } })
    .png()
    .toBuffer();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const request = (more: Partial<TicketRequest> = {}): TicketRequest => ({
  outPath: path.join(folder, 'ticket.pdf'),
  sheetId: 'K7QF2M9XT0',
  artworkName: 'Regatta pennant.png',
  picture,
  blank: {
    name: 'Straight mug',
    material: 'ceramic',
    side: 'the outside',
    seenThrough: false,
    widthMm: 229.6,
    heightMm: 95,
  },
  copies: 2,
  recipe: {
    platenC: 200,
    dwellSeconds: 210,
    pressure: 'medium',
    steps: ['Wipe the mug.', 'Wrap the paper tight.'],
    basis: 'Common practice; the maker first.',
  },
  setup: {
    name: 'Desk printer',
    printer: 'invented printer',
    ink: 'invented ink',
    paper: 'transfer paper A4',
    printSide: 'the whiter side',
    driverSettings: ['Plain paper, high quality.'],
    mirroredBy: 'sheet',
    ppi: 300,
  },
  sheetWidthMm: 210,
  sheetHeightMm: 297,
  colourSentence: 'Colour is not calibrated.',
  recordUrl: 'http://127.0.0.1:4600/sheets/K7QF2M9XT0',
  createdAt: '2026-05-04T09:12:33.000Z',
  demo: true,
  ...more,
});

async function read(more: Partial<TicketRequest> = {}): Promise<{ pages: number; text: string }> {
  await writeTicket(request(more));
  const data = new Uint8Array(await readFile(path.join(folder, 'ticket.pdf')));
  const document = await getDocument({ data, verbosity: 0 }).promise;
  const content = await (await document.getPage(1)).getTextContent();
  const text = content.items.map((item) => ('str' in item ? item.str : '')).join(' ');
  const pages = document.numPages;
  await document.destroy();
  return { pages, text };
}

describe('the press ticket', () => {
  it('is one page that says all a person at the press must know', async () => {
    const { pages, text } = await read();
    expect(pages).toBe(1);
    for (const words of [
      'K7QF2M9XT0',
      'Regatta pennant',
      'Straight mug',
      '2 pieces',
      '200 °C',
      '392 °F',
      '3 min 30 s',
      'Medium',
      'The outside',
      '229.6 × 95 mm',
      'Mirror in the driver: OFF',
      '100 %',
      'the whiter side',
      'Wipe the mug.',
      'hot press',
      'Air the room',
      'maker’s instructions',
      'crack',
      'invented',
      'Colour is not calibrated.',
      '127.0.0.1:4600/sheets/K7QF2M9XT0',
    ]) {
      expect(text).toContain(words);
    }
  });

  it('says the other thing when the driver mirrors', async () => {
    const { setup } = request();
    const { text } = await read({ setup: { ...setup, mirroredBy: 'driver' } });
    expect(text).toContain('Mirror in the driver: ON');
    expect(text).not.toContain('driver: OFF');
  });

  it('stays one page however long the recipe, and counts what it leaves out', async () => {
    const { recipe } = request();
    const steps = Array.from(
      { length: 20 },
      (_, index) => `Step ${index + 1} ${'with many words '.repeat(17)}`,
    );
    const { pages, text } = await read({ recipe: { ...recipe, steps } });
    expect(pages).toBe(1);
    expect(text).toMatch(/and \d+ more, in the record/);
    expect(text).toContain('hot press');
  });

  it('takes names in any script, control characters and endless words', async () => {
    for (const artworkName of [
      'مرحبا بالعالم',
      '漢字かな',
      '\u0000\u202Ebad\nname',
      'W'.repeat(400),
      '',
      '👩‍🎨🏆',
      'Ærøskøbing Żółw Ελλάδα Жук',
    ]) {
      expect((await read({ artworkName, recordUrl: null })).pages).toBe(1);
    }
    expect((await read({ artworkName: 'Żółw Жук' })).text).toContain('Жук');
  });

  it('refuses a picture that is none, and leaves nothing behind', async () => {
    await rm(path.join(folder, 'ticket.pdf'), { force: true });
    await expect(writeTicket(request({ picture: new Uint8Array([1, 2, 3]) }))).rejects.toMatchObject({
      code: 'image.wrong-type',
    });
    expect(await readdir(folder)).toEqual([]);
  });

  it.skipIf(spawnSync('qpdf', ['--version']).error !== undefined)('is sound to qpdf', async () => {
    await writeTicket(request());
    const check = spawnSync('qpdf', ['--check', path.join(folder, 'ticket.pdf')], { encoding: 'utf8' });
    expect(check.stdout).toContain('No syntax or stream encoding errors');
  });
});

describe('figures in words', () => {
  it('temperatures and times', () => {
    // °F = °C · 1.8 + 32, by definition.
    expect(temperature(204)).toEqual({ celsius: '204 °C', fahrenheit: '399 °F' });
    expect([duration(45), duration(60), duration(210)]).toEqual(['45 s', '1 min', '3 min 30 s']);
  });
});
