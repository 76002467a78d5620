import { type MeasurementTable, writeCgats } from '#craft/cgats';
import { labFromXyz, type Triple, xyzFromLab } from '#craft/colour';
import { choosePatches } from '#craft/testsheet';
import { measured, type VirtualPrinter } from './virtual-printer.js';
import { tableOf } from './virtual-printer-comparison.js';

/** A chart as an instrument would hand it over: a virtual printer's patches, read with noise of 0.4 ΔE*ab. */
export function measuredChart(printer: VirtualPrinter, count: number, seed: number): MeasurementTable {
  const rgb = choosePatches(count, seed).map((patch) => patch.rgb);
  return tableOf(rgb, measured(printer.print(rgb), 0.4, 400 + seed));
}

export function cgatsOf(table: MeasurementTable): string {
  return writeCgats(table, { originator: 'Virtual instrument (invented)' });
}

/** Another ground under the same inks: what the coat lets through times a tint, and a little haze. */
export function onOtherBlank(printer: VirtualPrinter): VirtualPrinter {
  const tint: Triple = [0.9, 0.92, 0.84];
  const haze = 0.006;
  return {
    name: `${printer.name} on another blank`,
    print: (rgb) =>
      printer.print(rgb).map((lab) => {
        const xyz = xyzFromLab(lab);
        return labFromXyz([tint[0] * xyz[0] + haze, tint[1] * xyz[1] + haze, tint[2] * xyz[2] + haze]);
      }),
  };
}
