import { towardsBrown } from '../../src/craft/presswindow/index.js';
import type { chanceOf } from './chance.js';

/**
 * A transfer that is nothing like the curves fitted to it: dye leaves the paper (first stage), and from the gap between
 * paper and coating it either goes into the coating (second stage, diffusion by finite volumes) or away through the
 * paper as vapour. Each dye and each stage has an activation energy of its own; dye deep in the coating colours less,
 * hot dye decays. Figures are invented and mean no ink.
 */
interface Dye {
  /** On the paper, units of optical density once all of it sits in the coating. */
  readonly amount: number;
  /** At 200 °C, 1/s, and activation energies in kJ/mol. */
  readonly leave: number;
  readonly leaveKJ: number;
  readonly enter: number;
  readonly escape: number;
  readonly escapeKJ: number;
  /** Diffusion in the coating at 200 °C, coating thicknesses squared per second. */
  readonly diffuse: number;
  readonly diffuseKJ: number;
  /** Lost for good in the coating, 1/s at 200 °C. */
  readonly decay: number;
  readonly decayKJ: number;
  /** Share of each third of the spectrum (red, green, blue) it takes. */
  readonly takes: readonly [number, number, number];
}

export interface Transfer {
  readonly dyes: { readonly cyan: Dye; readonly magenta: Dye; readonly yellow: Dye };
  /** How much of each dye makes a black. */
  readonly black: readonly [cyan: number, magenta: number, yellow: number];
  readonly warmUpSeconds: number;
  readonly ownEdgeUm: number;
  /** Sideways, µm²/s at 200 °C. */
  readonly sideways: number;
  readonly sidewaysKJ: number;
}

export const usualTransfer: Transfer = {
  dyes: {
    cyan: {
      amount: 1.9,
      leave: 0.15,
      leaveKJ: 95,
      enter: 2,
      escape: 0.1,
      escapeKJ: 60,
      diffuse: 0.004,
      diffuseKJ: 115,
      decay: 0.002,
      decayKJ: 85,
      takes: [1, 0.22, 0.08],
    },
    magenta: {
      amount: 1.9,
      leave: 0.08,
      leaveKJ: 95,
      enter: 2,
      escape: 0.06,
      escapeKJ: 60,
      diffuse: 0.004,
      diffuseKJ: 115,
      decay: 0.0002,
      decayKJ: 85,
      takes: [0.1, 1, 0.25],
    },
    yellow: {
      amount: 1.9,
      leave: 0.12,
      leaveKJ: 95,
      enter: 2,
      escape: 0.08,
      escapeKJ: 60,
      diffuse: 0.004,
      diffuseKJ: 115,
      decay: 0.0002,
      decayKJ: 85,
      takes: [0.02, 0.06, 1],
    },
  },
  black: [1.12, 0.95, 0.92],
  warmUpSeconds: 2,
  ownEdgeUm: 110,
  sideways: 34,
  sidewaysKJ: 110,
};

const cells = 12;
const rate = (kJ: number, celsius: number): number =>
  Math.exp((-kJ * 1000 * (1 / (celsius + 273.15) - 1 / 473.15)) / 8.314462618);

export interface Pressed {
  readonly density: { black: number; cyan: number; magenta: number; yellow: number };
  readonly blackLab: [number, number, number];
  readonly edgeUm: number;
}

/** Pressed values without any noise. */
export function transfer(
  { platenC, dwellSeconds, pressureBar = 2 }: { platenC: number; dwellSeconds: number; pressureBar?: number },
  how: Transfer = usualTransfer,
): Pressed {
  // Closer contact lets more in and less out; it is not a factor of time.
  const contact = (pressureBar / 2) ** 0.3;
  const steps = 160;
  const dt = dwellSeconds / steps;
  const seen = { cyan: 0, magenta: 0, yellow: 0 };
  let spreadUm2 = 0;
  const celsiusAt = (s: number): number => platenC - (platenC - 60) * Math.exp(-s / how.warmUpSeconds);
  for (let i = 0; i < steps; i += 1)
    spreadUm2 += 2 * how.sideways * rate(how.sidewaysKJ, celsiusAt((i + 0.5) * dt)) * dt;
  for (const name of ['cyan', 'magenta', 'yellow'] as const) {
    const dye = how.dyes[name];
    let paper = dye.amount;
    let gap = 0;
    const coat = new Float64Array(cells);
    for (let i = 0; i < steps; i += 1) {
      const celsius = celsiusAt((i + 0.5) * dt);
      const out = 1 - Math.exp(-contact * dye.leave * rate(dye.leaveKJ, celsius) * dt);
      gap += out * paper;
      paper -= out * paper;
      const [enter, away] = [contact * dye.enter, (dye.escape / contact) * rate(dye.escapeKJ, celsius)];
      const gone = 1 - Math.exp(-(enter + away) * dt);
      coat[0] = coat[0]! + (gone * gap * enter) / (enter + away);
      gap -= gone * gap;
      implicitDiffusion(coat, dye.diffuse * rate(dye.diffuseKJ, celsius) * dt * cells * cells);
      const kept = Math.exp(-dye.decay * rate(dye.decayKJ, celsius) * dt);
      for (let k = 0; k < cells; k += 1) coat[k] = coat[k]! * kept;
    }
    // Deep dye colours a tenth less: light is scattered before it gets there.
    seen[name] = coat.reduce((sum, v, k) => sum + v * (1 - (0.1 * k) / (cells - 1)), 0);
  }
  const band = (scale: readonly number[]): [number, number, number] =>
    [0, 1, 2].map((c) => {
      const names = ['cyan', 'magenta', 'yellow'] as const;
      const d = names.reduce((sum, n, i) => sum + scale[i]! * seen[n] * how.dyes[n].takes[c as 0]!, 0);
      // Light from the surface keeps blacks from being deeper than about 2.3.
      return 10 ** -d + 0.005;
    }) as [number, number, number];
  const blackBand = band(how.black);
  const solid = (scale: readonly number[], c: number): number => -Math.log10(band(scale)[c]!);
  return {
    density: {
      black: -Math.log10(blackBand.reduce((s, v, i) => s + v * [0.25, 0.65, 0.1][i]!, 0)),
      cyan: solid([1, 0, 0], 0),
      magenta: solid([0, 1, 0], 1),
      yellow: solid([0, 0, 1], 2),
    },
    blackLab: labOfBands(blackBand),
    edgeUm: Math.hypot(how.ownEdgeUm, 2.563 * Math.sqrt(spreadUm2)),
  };
}

/** One backward Euler step of diffusion between closed ends; `r` is D dt/Δ². */
function implicitDiffusion(c: Float64Array, r: number): void {
  const n = c.length;
  const upper = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    const diagonal = 1 + r * ((i > 0 ? 1 : 0) + (i < n - 1 ? 1 : 0)) + (i > 0 ? r * upper[i - 1]! : 0);
    upper[i] = i < n - 1 ? -r / diagonal : 0;
    c[i] = (c[i]! + (i > 0 ? r * c[i - 1]! : 0)) / diagonal;
  }
  for (let i = n - 2; i >= 0; i -= 1) c[i] = c[i]! - upper[i]! * c[i + 1]!;
}

/** Red, green, blue light of equal white → CIELAB, by the linear sRGB matrix (IEC 61966-2-1). */
function labOfBands([r, g, b]: readonly [number, number, number]): [number, number, number] {
  const f = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : (841 / 108) * t + 16 / 116);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** Standard deviations of reading a coupon from a scan, and of the press repeating itself. */
export const scanNoise = { density: 0.01, lab: 0.25, edgeUm: 4, pressK: 0.4, pressSeconds: 0.4 };

/** A coupon pressed by an imperfect press and read from a scan. */
export function pressedCoupon(
  id: string,
  step: { platenC: number; dwellSeconds: number; pressureBar?: number },
  chance: ReturnType<typeof chanceOf>,
  how: Transfer = usualTransfer,
) {
  const n = scanNoise;
  const truth = transfer(
    {
      ...step,
      platenC: step.platenC + n.pressK * chance.normal(),
      dwellSeconds: step.dwellSeconds + n.pressSeconds * chance.normal(),
    },
    how,
  );
  const read = (value: number, sd: number): { value: number; sd: number } => ({
    value: value + sd * chance.normal(),
    sd,
  });
  return {
    id,
    step,
    values: {
      density: {
        black: read(truth.density.black, n.density),
        cyan: read(truth.density.cyan, n.density),
        magenta: read(truth.density.magenta, n.density),
        yellow: read(truth.density.yellow, n.density),
      },
      blackLab: {
        lab: truth.blackLab.map((v) => v + n.lab * chance.normal()) as [number, number, number],
        sdLab: [n.lab, n.lab, n.lab] as [number, number, number],
      },
      edgeUm: read(truth.edgeUm, n.edgeUm),
    },
  };
}

export const hueOfBlack = (pressed: Pressed): number => towardsBrown(pressed.blackLab);
