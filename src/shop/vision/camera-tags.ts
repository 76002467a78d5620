/** Exif 2.32 (CIPA DC-008), Exif IFD: exposure time, F number, ISO, shutter speed, focal length. Scanners write none. */
const cameraTags = new Set([0x829a, 0x829d, 0x8827, 0x9201, 0x920a]);
const exifPointer = 0x8769;
const mostEntries = 512;

/** Whether an EXIF block holds what only a camera writes. Broken blocks are taken as none. */
export function writtenByCamera(exif: Uint8Array | undefined): boolean {
  if (!exif) return false;
  const start = exif[0] === 0x45 ? 6 : 0; // 'Exif\0\0'
  const view = new DataView(exif.buffer, exif.byteOffset + start, Math.max(0, exif.byteLength - start));
  try {
    const little = view.getUint16(0) === 0x4949;
    const pointer = entries(view, view.getUint32(4, little), little).find(({ tag }) => tag === exifPointer);
    if (!pointer) return false;
    return entries(view, pointer.value, little).some(({ tag }) => cameraTags.has(tag));
  } catch {
    return false;
  }
}

function entries(view: DataView, at: number, little: boolean): { tag: number; value: number }[] {
  const count = Math.min(mostEntries, view.getUint16(at, little));
  return Array.from({ length: count }, (_, i) => ({
    tag: view.getUint16(at + 2 + 12 * i, little),
    value: view.getUint32(at + 10 + 12 * i, little),
  }));
}
