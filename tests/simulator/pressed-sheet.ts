import { blurred } from './optics.js';
import { encode, type Picture } from './picture.js';
import { type Transfer, transfer, usualTransfer } from './press-transfer.js';

export interface PressedAt {
  readonly platenC: number;
  readonly dwellSeconds: number;
  readonly pressureBar?: number | undefined;
}

const bare = [0.92, 0.92, 0.9] as const;
/** What `press-transfer` adds to all light from the surface. */
const surface = 0.005;
const dyes = ['cyan', 'magenta', 'yellow'] as const;

/** Of each dye, what came over at full coat: from its solid's density, surface light taken off. */
function cameOver({ pressureBar, ...step }: PressedAt, how: Transfer): { came: number[]; edgeUm: number } {
  const pressure = pressureBar === undefined ? {} : { pressureBar };
  const { density, edgeUm } = transfer({ ...step, ...pressure }, how);
  const came = dyes.map((name, i) => {
    const { takes } = how.dyes[name];
    return -Math.log10(Math.max(1e-6, 10 ** -density[name] - surface)) / takes[i]!;
  });
  return { came, edgeUm };
}

/** How much of each dye was printed, share of a full coat. */
function printedDye(device: readonly number[], how: Transfer): number[] {
  const top = Math.max(...device);
  return device.map((v, i) => top - v + (1 - top) * how.black[i as 0]!);
}

function lightOf(amounts: readonly number[], came: readonly number[], how: Transfer): number[] {
  return [0, 1, 2].map((c) => {
    const d = dyes.reduce((sum, name, i) => sum + amounts[i]! * came[i]! * how.dyes[name].takes[c as 0]!, 0);
    return (bare[c]! * (10 ** -d + surface)) / (1 + surface);
  });
}

/**
 * A printed sheet, or a part of it, pressed by `press-transfer`: every pixel's dye goes over as the solids' does at that
 * step, and edges are as soft as it says. What lay left on the paper lies right on the piece.
 *
 * @param written device values as linear sRGB, as they leave the program
 * @param stepAt what was pressed at a place of the piece, −1 (left, back) to 1 (right, front)
 */
export function pressedSheet(
  written: Picture,
  stepAt: (u: number, v: number) => PressedAt,
  how: Transfer = usualTransfer,
): Picture {
  const { width, height, ppi } = written;
  const worked = new Map<string, ReturnType<typeof cameOver>>();
  const lattice = Array.from({ length: nodes * nodes }, (_, i) => {
    const step = stepAt(placeOf(i % nodes), placeOf(Math.floor(i / nodes)));
    const key = `${step.platenC} ${step.dwellSeconds} ${step.pressureBar}`;
    const came = worked.get(key) ?? cameOver(step, how);
    worked.set(key, came);
    return came;
  });
  const isEven = lattice.every(({ came }) => came.every((v, i) => v === lattice[0]!.came[i]));
  const data = new Float32Array(written.data.length);
  // Few device colours occur: what is printed of them is worked out once; where all is even, the light too.
  const printed = new Map<number, { amounts: readonly number[]; light: readonly number[] }>();
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const from = 3 * (y * width + (width - 1 - x));
      const device = [0, 1, 2].map((c) => encode(Math.min(1, Math.max(0, written.data[from + c]!))));
      const code = device.reduce((sum, v) => 256 * sum + Math.round(255 * v), 0);
      let ink = printed.get(code);
      if (!ink) {
        const amounts = printedDye(device, how);
        ink = { amounts, light: lightOf(amounts, lattice[0]!.came, how) };
        printed.set(code, ink);
      }
      const light = isEven
        ? ink.light
        : lightOf(ink.amounts, between(lattice, (x + 0.5) / width, (y + 0.5) / height), how);
      for (let c = 0; c < 3; c += 1) data[3 * (y * width + x) + c] = light[c]!;
    }
  }
  // 10 to 90 % of a Gaussian's integral is 2.563 of its standard deviations.
  const edgeUm = lattice.reduce((sum, node) => sum + node.edgeUm, 0) / lattice.length;
  return blurred({ width, height, ppi, data }, ((edgeUm / 2.563 / 1000) * ppi) / 25.4);
}

/** Places along each side at which the transfer is worked out; between them on straight lines. */
const nodes = 25;
const placeOf = (i: number): number => (2 * i) / (nodes - 1) - 1;

function between(lattice: readonly { came: number[] }[], across: number, along: number): number[] {
  const [x, y] = [across * (nodes - 1), along * (nodes - 1)];
  const [i, j] = [Math.min(nodes - 2, Math.floor(x)), Math.min(nodes - 2, Math.floor(y))];
  const [f, g] = [x - i, y - j];
  const corners = [0, 1, nodes, nodes + 1].map((step) => lattice[j * nodes + i + step]!.came);
  const shares = [(1 - f) * (1 - g), f * (1 - g), (1 - f) * g, f * g];
  return [0, 1, 2].map((k) => corners.reduce((sum, came, n) => sum + shares[n]! * came[k]!, 0));
}

/** The same everywhere, as a coupon is small. */
export function pressedAt(written: Picture, step: PressedAt, how: Transfer = usualTransfer): Picture {
  return pressedSheet(written, () => step, how);
}
