import type { Chain } from './chain.js';
import type { EndFlow } from './ends.js';
import { solveTridiagonal } from './tridiagonal.js';

/**
 * TR-BDF2: a trapezoidal stage to t + γΔt, then BDF2 to t + Δt, γ = 2 − √2, so that both stages share one matrix.
 * Second order, L-stable, stiffly accurate. Bank et al., IEEE Trans. Electron Devices 32(10), 1985; written as the
 * Runge–Kutta pair of Hosea & Shampine, Appl. Numer. Math. 20, 1996, whose third-order companion gives the error.
 */
export const gamma = 2 - Math.SQRT2;
/** Weights of the three stage flows in a step: (w, w, d). */
export const stageWeights = [Math.SQRT2 / 4, Math.SQRT2 / 4, 1 - Math.SQRT1_2] as const;
const [w, , d] = stageWeights;
const errorWeights = [w - (1 - w) / 3, w - (3 * w + 1) / 3, d - d / 3] as const;

/** Newton stops when the next correction would be below this, K. */
const correctionK = 1e-10;

/** Flows into the nodes of a chain at given temperatures, and what they are made of. */
export class Flows {
  readonly nodes: Float64Array;
  readonly ends: Float64Array;
  readonly endSlopes: Float64Array;
  readonly faceC: Float64Array;
  private readonly scratch: EndFlow = { wattsPerM2: 0, slope: 0, faceC: 0 };

  constructor(private readonly chain: Chain) {
    this.nodes = new Float64Array(chain.count);
    this.ends = new Float64Array(chain.ends.length);
    this.endSlopes = new Float64Array(chain.ends.length);
    this.faceC = new Float64Array(chain.ends.length);
  }

  evaluate(celsius: Float64Array, seconds: number): void {
    const { count, links, ends } = this.chain;
    const nodes = this.nodes;
    nodes.fill(0);
    for (let i = 0; i + 1 < count; i += 1) {
      const flow = links[i]! * (celsius[i]! - celsius[i + 1]!);
      nodes[i] = nodes[i]! - flow;
      nodes[i + 1] = nodes[i + 1]! + flow;
    }
    for (let e = 0; e < ends.length; e += 1) {
      const end = ends[e]!;
      end.evaluate(celsius[end.node]!, seconds, this.scratch);
      nodes[end.node] = nodes[end.node]! + this.scratch.wattsPerM2;
      this.ends[e] = this.scratch.wattsPerM2;
      this.endSlopes[e] = this.scratch.slope;
      this.faceC[e] = this.scratch.faceC;
    }
  }
}

export class Stepper {
  /** Flows at the start, at the middle stage and at the end of the step last taken. */
  start: Flows;
  readonly middle: Flows;
  end: Flows;
  /** Temperatures at the middle stage and at the end of the step last tried. */
  readonly middleC: Float64Array;
  readonly endC: Float64Array;
  private readonly lower: Float64Array;
  private readonly diagonal: Float64Array;
  private readonly upper: Float64Array;
  private readonly right: Float64Array;
  private readonly base: Float64Array;

  constructor(private readonly chain: Chain) {
    const n = chain.count;
    this.start = new Flows(chain);
    this.middle = new Flows(chain);
    this.end = new Flows(chain);
    this.middleC = new Float64Array(n);
    this.endC = new Float64Array(n);
    this.lower = new Float64Array(n);
    this.diagonal = new Float64Array(n);
    this.upper = new Float64Array(n);
    this.right = new Float64Array(n);
    this.base = new Float64Array(n);
  }

  /**
   * Tries one step from `celsius`, whose flows stand in `start`. The result is in `endC` and `end`.
   * @returns the largest error estimated in any node, K; Infinity if the stages did not converge
   */
  attempt(celsius: Float64Array, seconds: number, stepSeconds: number): number {
    const { count, capacities } = this.chain;
    const { start, middle, end, base, right } = this;
    for (let i = 0; i < count; i += 1)
      base[i] = capacities[i]! * celsius[i]! + stepSeconds * d * start.nodes[i]!;
    // The trapezoidal stage: weights (γ/2, γ/2), and γ/2 = d.
    this.middleC.set(celsius);
    if (!this.solveStage(this.middleC, middle, seconds + gamma * stepSeconds, stepSeconds * d))
      return Number.POSITIVE_INFINITY;
    for (let i = 0; i < count; i += 1)
      base[i] = capacities[i]! * celsius[i]! + stepSeconds * w * (start.nodes[i]! + middle.nodes[i]!);
    this.endC.set(this.middleC);
    if (!this.solveStage(this.endC, end, seconds + stepSeconds, stepSeconds * d))
      return Number.POSITIVE_INFINITY;

    // Filtered by the stage matrix, so that stiff parts do not cry wolf (Hosea & Shampine, section 4).
    for (let i = 0; i < count; i += 1)
      right[i] =
        stepSeconds *
        (errorWeights[0] * start.nodes[i]! +
          errorWeights[1] * middle.nodes[i]! +
          errorWeights[2] * end.nodes[i]!);
    this.fillMatrix(end, stepSeconds * d);
    solveTridiagonal(this.lower, this.diagonal, this.upper, right, count);
    let largest = 0;
    for (let i = 0; i < count; i += 1) largest = Math.max(largest, Math.abs(right[i]!));
    return Number.isNaN(largest) ? Number.POSITIVE_INFINITY : largest;
  }

  /** Makes the end of the last step the start of the next. */
  accept(): void {
    const { start } = this;
    this.start = this.end;
    this.end = start;
  }

  /** C T − a F(T) = base by Newton's method; leaves the flows at the solution in `flows`. */
  private solveStage(celsius: Float64Array, flows: Flows, seconds: number, a: number): boolean {
    const { count, capacities } = this.chain;
    const { base, right } = this;
    flows.evaluate(celsius, seconds);
    for (let round = 0; round < 25; round += 1) {
      this.fillMatrix(flows, a);
      for (let i = 0; i < count; i += 1)
        right[i] = base[i]! + a * flows.nodes[i]! - capacities[i]! * celsius[i]!;
      solveTridiagonal(this.lower, this.diagonal, this.upper, right, count);
      let largest = 0;
      for (let i = 0; i < count; i += 1) {
        celsius[i] = celsius[i]! + right[i]!;
        largest = Math.max(largest, Math.abs(right[i]!));
      }
      flows.evaluate(celsius, seconds);
      if (!(largest < 1e6)) return false;
      if (largest < correctionK || this.settled(celsius, flows, a)) return true;
    }
    return false;
  }

  /** Whether what is left over is so little that another round would change nothing. */
  private settled(celsius: Float64Array, flows: Flows, a: number): boolean {
    const { count, capacities, links } = this.chain;
    for (let i = 0; i < count; i += 1) {
      const left = this.base[i]! + a * flows.nodes[i]! - capacities[i]! * celsius[i]!;
      const scale = capacities[i]! + a * ((links[i] ?? 0) + (i > 0 ? links[i - 1]! : 0));
      if (!(Math.abs(left) < correctionK * scale)) return false;
    }
    return true;
  }

  private fillMatrix(flows: Flows, a: number): void {
    const { count, capacities, links, ends } = this.chain;
    const { lower, diagonal, upper } = this;
    for (let i = 0; i < count; i += 1) diagonal[i] = capacities[i]!;
    for (let i = 0; i + 1 < count; i += 1) {
      const g = a * links[i]!;
      diagonal[i] = diagonal[i]! + g;
      diagonal[i + 1] = diagonal[i + 1]! + g;
      upper[i] = -g;
      lower[i + 1] = -g;
    }
    for (let e = 0; e < ends.length; e += 1) {
      const node = ends[e]!.node;
      diagonal[node] = diagonal[node]! - a * flows.endSlopes[e]!;
    }
  }
}
