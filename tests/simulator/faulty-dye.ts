import type { Chance } from './chance.js';
import { blurred } from './optics.js';
import type { Picture } from './picture.js';
import { type PieceFault, type Side, towards } from './piece-faults.js';

/** No dye takes more light than this; natural-log density, about 2.0 in the usual density. */
const mostDensity = 4.6;

/** Artwork in linear light → what dye came into the coating, as natural-log density a channel, faults and all. */
export function faultyDye(artwork: Picture, faults: readonly PieceFault[], chance: Chance): Picture {
  let dye: Picture = {
    ...artwork,
    data: Float32Array.from(artwork.data, (v) => Math.min(mostDensity, -Math.log(Math.max(v, 0.01)))),
  };
  // The grain that every print has: one in a hundred.
  for (let i = 0; i < dye.data.length; i += 1) dye.data[i] = dye.data[i]! * (1 + 0.01 * chance.normal());
  for (const fault of faults) dye = withFault(dye, fault, chance);
  return dye;
}

function withFault(dye: Picture, fault: PieceFault, chance: Chance): Picture {
  const perMm = dye.ppi / 25.4;
  const { width, height } = dye;
  switch (fault.kind) {
    case 'white lines': {
      const phase = chance.next() * fault.everyMm;
      return scaledAlong(dye, fault.direction, (mm) => {
        const from = (mm + phase) % fault.everyMm;
        return from < fault.widthMm ? 1 - fault.share : 1;
      });
    }
    case 'streaks': {
      const lines = Math.ceil((Math.max(width, height) / perMm / fault.widthMm) * 1.5) + 2;
      const heights = Array.from({ length: lines }, () => chance.normal());
      return scaledAlong(dye, fault.direction, (mm) => {
        const at = mm / fault.widthMm;
        const i = Math.floor(at);
        const between = at - i;
        return 1 + fault.share * (heights[i]! * (1 - between) + heights[i + 1]! * between);
      });
    }
    case 'banding': {
      const phase = chance.next() * 2 * Math.PI;
      return scaledAlong(
        dye,
        fault.direction,
        (mm) => 1 + fault.share * Math.sin((2 * Math.PI * mm) / fault.periodMm + phase),
      );
    }
    case 'cast':
      return changed(dye, (density, c) => density * fault.dye[c]!);
    case 'reversed':
      return moved(dye, (x, y) => [width - 1 - x, y]);
    case 'fade':
      return changed(dye, (density, _c, x, y) => {
        const [s, t] = [(x + 0.5) / width, (y + 0.5) / height];
        const r2 = ((2 * s - 1) ** 2 + (2 * t - 1) ** 2) / 2;
        const there =
          fault.where === 'overall'
            ? 1
            : fault.where === 'corners'
              ? r2 ** 2
              : towards(fault.where, s, t) ** 1.5;
        return density * (1 - fault.share * there);
      });
    case 'blur':
      return spread(dye, fault.where, fault.sigmaMm * perMm);
    case 'double': {
      const [dx, dy] = [Math.round(fault.dxMm * perMm), Math.round(fault.dyMm * perMm)];
      const second = moved(dye, (x, y) => [x - dx, y - dy]);
      return {
        ...dye,
        data: dye.data.map((v, i) =>
          Math.min(mostDensity, v * (1 - 0.3 * fault.share) + fault.share * second.data[i]!),
        ),
      };
    }
    case 'specks': {
      const kept = new Float32Array(width * height).fill(1);
      for (let i = 0; i < fault.count; i += 1) {
        const radius = fault.radiusMm * perMm * chance.between(0.6, 1.4);
        dab(kept, dye, chance.next() * width, chance.next() * height, radius);
      }
      return keptOf(dye, kept);
    }
    case 'fibres': {
      const kept = new Float32Array(width * height).fill(1);
      for (let i = 0; i < fault.count; i += 1)
        fibre(kept, dye, fault.lengthMm * perMm, fault.widthMm * perMm, chance);
      return keptOf(dye, kept);
    }
    case 'black': {
      // The dye that takes green light is lost, or the one that takes red.
      const lost = fault.to === 'green' ? [0.05, 0.6, 0.1] : [0.6, 0.2, 0];
      const data = dye.data.slice();
      for (let at = 0; at < data.length; at += 3) {
        const least = Math.min(data[at]!, data[at + 1]!, data[at + 2]!);
        const heavy = Math.min(1, Math.max(0, (least - 1.5) / 1.5));
        for (let c = 0; c < 3; c += 1) data[at + c] = data[at + c]! * (1 - fault.share * heavy * lost[c]!);
      }
      return { ...dye, data };
    }
    case 'missing': {
      const [x0, y0] = [fault.xMm * perMm, fault.yMm * perMm];
      const [x1, y1] = [x0 + fault.widthMm * perMm, y0 + fault.heightMm * perMm];
      return changed(dye, (density, _c, x, y) => (x >= x0 && x < x1 && y >= y0 && y < y1 ? 0 : density));
    }
    case 'edge mark': {
      const isAcross = fault.side === 'top' || fault.side === 'bottom';
      const extent = (isAcross ? height : width) / perMm;
      const line =
        fault.side === 'left' || fault.side === 'top' ? fault.fromEdgeMm : extent - fault.fromEdgeMm;
      return scaledAlong(
        dye,
        isAcross ? 'across' : 'down',
        (mm) => 1 - fault.share * Math.exp(-0.5 * ((mm - line) / 0.5) ** 2),
      );
    }
    default:
      return dye;
  }
}

/** Every place by its own rule. */
function changed(
  dye: Picture,
  rule: (density: number, channel: number, x: number, y: number) => number,
): Picture {
  const data = new Float32Array(dye.data.length);
  for (let y = 0, at = 0; y < dye.height; y += 1) {
    for (let x = 0; x < dye.width; x += 1) {
      for (let c = 0; c < 3; c += 1, at += 1) data[at] = rule(dye.data[at]!, c, x, y);
    }
  }
  return { ...dye, data };
}

/** By a share that goes with the distance across the lines; 'across' lines run left to right. */
function scaledAlong(dye: Picture, direction: 'across' | 'down', shareAt: (mm: number) => number): Picture {
  const perMm = dye.ppi / 25.4;
  const shares = Float32Array.from({ length: direction === 'across' ? dye.height : dye.width }, (_, i) => {
    // Mean over the pixel, so that lines thinner than one are not lost or doubled.
    let sum = 0;
    for (let k = 0; k < 8; k += 1) sum += shareAt((i + (k + 0.5) / 8) / perMm);
    return Math.max(0, sum / 8);
  });
  return changed(dye, (density, _c, x, y) => density * shares[direction === 'across' ? y : x]!);
}

function moved(dye: Picture, from: (x: number, y: number) => readonly [number, number]): Picture {
  const { width, height } = dye;
  return changed(dye, (_density, c, x, y) => {
    const [sx, sy] = from(x, y);
    return sx < 0 || sy < 0 || sx >= width || sy >= height ? 0 : dye.data[3 * (sy * width + sx) + c]!;
  });
}

/** Diffusion; towards a side it grows from none at the far one, between five strengths. */
function spread(dye: Picture, where: 'overall' | Side, sigma: number): Picture {
  if (where === 'overall') return blurred(dye, sigma);
  const steps = [0, 0.25, 0.5, 0.75, 1].map((share) => blurred(dye, share * sigma));
  const { width, height } = dye;
  return changed(dye, (_density, c, x, y) => {
    const there = 4 * towards(where, (x + 0.5) / width, (y + 0.5) / height);
    const i = Math.min(3, Math.floor(there));
    const at = 3 * (y * width + x) + c;
    return steps[i]!.data[at]! * (i + 1 - there) + steps[i + 1]!.data[at]! * (there - i);
  });
}

/** Something round between paper and coating: no dye under it, a soft rim. */
function dab(kept: Float32Array, { width, height }: Picture, x: number, y: number, radius: number): void {
  const reach = radius + 2;
  for (let j = Math.max(0, Math.floor(y - reach)); j < Math.min(height, y + reach); j += 1) {
    for (let i = Math.max(0, Math.floor(x - reach)); i < Math.min(width, x + reach); i += 1) {
      const share = 1 / (1 + Math.exp(-2 * (Math.hypot(i + 0.5 - x, j + 0.5 - y) - radius)));
      kept[j * width + i] = Math.min(kept[j * width + i]!, share);
    }
  }
}

/** A curled thread: direction wanders as it goes. */
function fibre(kept: Float32Array, dye: Picture, length: number, wide: number, chance: Chance): void {
  let [x, y] = [chance.next() * dye.width, chance.next() * dye.height];
  let heading = chance.next() * 2 * Math.PI;
  let turn = 0;
  const step = Math.max(0.5, wide / 2);
  for (let gone = 0; gone < length; gone += step) {
    dab(kept, dye, x, y, wide / 2);
    turn = 0.95 * turn + ((0.6 * step) / Math.max(length / 8, 1)) * chance.normal();
    heading += turn;
    x += step * Math.cos(heading);
    y += step * Math.sin(heading);
  }
}

function keptOf(dye: Picture, kept: Float32Array): Picture {
  return { ...dye, data: dye.data.map((v, i) => v * kept[Math.floor(i / 3)]!) };
}
