import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { type OpenShopOptions, openShop, type Shop } from '#shop';

/** A new folder that goes when the test is over. */
export function newFolder(): { folder: string; remove: () => void } {
  const folder = mkdtempSync(path.join(tmpdir(), 'dyewright-shop-'));
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

/** A shop without the demo, faults collected. */
export async function openTestShop(
  options: Partial<OpenShopOptions> & { folder: string },
): Promise<{ shop: Shop; faults: unknown[] }> {
  const faults: unknown[] = [];
  const shop = await openShop({
    demo: false,
    workers: 2,
    onFault: (error) => faults.push(error),
    ...options,
  });
  return { shop, faults };
}

/** A picture that is different in each corner, so that any turn or mirror shows. */
export async function cornersPng(widthPixels = 60, heightPixels = 40): Promise<Buffer> {
  const half = { width: Math.floor(widthPixels / 2), height: Math.floor(heightPixels / 2) };
  const block = (background: string) => ({ create: { ...half, channels: 3 as const, background } });
  return sharp({
    create: { width: widthPixels, height: heightPixels, channels: 3, background: '#808080' },
  })
    .composite([
      { input: block('#c03020'), left: 0, top: 0 },
      { input: block('#2060c0'), left: half.width, top: 0 },
      { input: block('#20a060'), left: 0, top: half.height },
    ])
    .removeAlpha()
    .png()
    .toBuffer();
}

/** One multipart form (RFC 7578), with the file last unless `fileFirst`. */
export function form(
  file: { name: string; bytes: Uint8Array; field?: string } | null,
  fields: Record<string, string> = {},
  fileFirst = false,
): { payload: Buffer; headers: Record<string, string> } {
  const boundary = 'dyewright-test-boundary';
  const texts = Object.entries(fields).map(([name, value]) =>
    Buffer.from(`--${boundary}\r\nContent-Disposition: form-data; name="${name}"\r\n\r\n${value}\r\n`),
  );
  const files =
    file === null
      ? []
      : [
          Buffer.from(
            `--${boundary}\r\nContent-Disposition: form-data; name="${file.field ?? 'file'}"; filename="${file.name}"\r\n` +
              'Content-Type: application/octet-stream\r\n\r\n',
          ),
          Buffer.from(file.bytes),
          Buffer.from('\r\n'),
        ];
  const parts = fileFirst ? [...files, ...texts] : [...texts, ...files];
  return {
    payload: Buffer.concat([...parts, Buffer.from(`--${boundary}--\r\n`)]),
    headers: { 'content-type': `multipart/form-data; boundary=${boundary}` },
  };
}

/** Every file and folder in the shop's scratch folder. */
export function scratchOf(folder: string): string[] {
  return readdirSync(path.join(folder, 'scratch'), { recursive: true }).map(String);
}

/** Every kept file, by hash. */
export function keptFiles(folder: string): string[] {
  return readdirSync(path.join(folder, 'files'), { recursive: true })
    .map((name) => path.basename(String(name)))
    .filter((name) => name.length === 64);
}
