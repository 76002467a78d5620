import type { APIRequestContext } from '@playwright/test';
import {
  celsiusAt,
  pressedSheet,
  scan,
  toFile,
  type UnevenPlaten,
  usualPlaten,
  writtenSheet,
} from '../simulator/index.js';

const ppi = 200;

/** An evenness sheet pressed on a simulated platen that is uneven in its own way, scanned anyhow: a PNG file. */
export async function scanOfEvenness(
  request: APIRequestContext,
  sheetId: string,
  how: Partial<UnevenPlaten>,
  seed: number,
): Promise<Buffer> {
  const sheet: {
    widthMm: number;
    heightMm: number;
    files: { kind: string; format: string; fileName: string }[];
  } = await (await request.get(`/api/test-sheets/${sheetId}`)).json();
  const file = sheet.files.find((one) => one.kind === 'sheet');
  const bytes = await (
    await request.get(`/api/test-sheets/${sheetId}/files/${encodeURIComponent(file?.fileName ?? '')}`)
  ).body();
  const face = { widthMm: sheet.widthMm, depthMm: sheet.heightMm };
  // Still rising, as the ticket asks for: at the top a cool place would be hidden.
  const platen = { ...usualPlaten, platenC: 192, dwellSeconds: 30, ...how };
  const piece = pressedSheet(await writtenSheet(bytes, ppi), (u, v) => ({
    platenC: celsiusAt(platen, u, v, face),
    dwellSeconds: platen.dwellSeconds,
    pressureBar: platen.pressureBar,
  }));
  return toFile(scan(piece, { ppi, turnDegrees: 180.6, dust: 10, seed }), { format: 'png', ppi });
}
