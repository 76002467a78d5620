import type PDFDocument from 'pdfkit';
import qrcode from 'qrcode-generator';

/** Draw a QR code (ISO/IEC 18004, level M) of `side` points; modules that touch become one bar, so no hairlines. */
export function drawQrCode(
  doc: InstanceType<typeof PDFDocument>,
  text: string,
  x: number,
  y: number,
  side: number,
  colour: string,
): void {
  const code = qrcode(0, 'M');
  code.addData(text, 'Byte');
  code.make();
  const modules = code.getModuleCount();
  const pitch = side / modules;
  for (let row = 0; row < modules; row += 1) {
    let column = 0;
    while (column < modules) {
      const from = column;
      while (column < modules && code.isDark(row, column)) column += 1;
      if (column > from) doc.rect(x + from * pitch, y + row * pitch, (column - from) * pitch, pitch);
      else column += 1;
    }
  }
  doc.fill(colour);
}
