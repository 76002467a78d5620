import type { Chain, ChainPiece } from './chain.js';
import { lowerFaceC, probeC, upperFaceC } from './probe.js';
import type { Flows } from './stepper.js';
import type { EnergyAccount, HeatResult, HeatRun, Phase, PhaseSpan, StackProfile } from './types.js';

/** Writes down what the probes, platens and heaters do, sample by sample. */
export class Recorder {
  private readonly seconds: number[] = [];
  private readonly values: number[][];
  private readonly top: number[] = [];
  private readonly bottom: number[] = [];
  private readonly power: number[] = [];
  private readonly entering: number[] = [];
  private readonly spans: PhaseSpan[] = [];
  private readonly profiles: StackProfile[] = [];
  private chain: Chain | null = null;
  private current: { name: string; start: number; first: number } | null = null;
  private probed: (ChainPiece | undefined)[] = [];

  constructor(
    private readonly run: HeatRun,
    private readonly radiiM: readonly number[],
  ) {
    this.values = run.probes.map(() => []);
  }

  beginPhase(phase: Phase, chain: Chain, startSeconds: number): void {
    this.chain = chain;
    this.current = { name: phase.name, start: startSeconds, first: this.seconds.length };
    this.probed = this.run.probes.map((probe) =>
      chain.pieces.find((piece) => piece.mesh.layer.id === probe.layer),
    );
  }

  sample(seconds: number, celsius: Float64Array, flows: Flows): void {
    const chain = this.chain!;
    this.seconds.push(seconds);
    this.run.probes.forEach((probe, p) => {
      const piece = this.probed[p];
      this.values[p]!.push(
        piece === undefined ? Number.NaN : probeC(chain, piece, probe.depth, celsius, flows),
      );
    });
    if (chain.topPlaten !== null) this.top.push(celsius[chain.topPlaten]!);
    if (chain.bottomPlaten !== null) this.bottom.push(celsius[chain.bottomPlaten]!);
    let heaters = 0;
    let entering = 0;
    chain.ends.forEach((end, e) => {
      if (end.account === 'heater') heaters += flows.ends[e]!;
      else if (end.account !== 'platen-loss') entering += flows.ends[e]!;
    });
    const through = (link: number): number => chain.links[link]! * (celsius[link]! - celsius[link + 1]!);
    if (chain.topTouch !== null) entering += through(chain.topTouch);
    if (chain.bottomTouch !== null) entering -= through(chain.bottomTouch);
    this.power.push(heaters);
    this.entering.push(entering);
  }

  profile(seconds: number, celsius: Float64Array, flows: Flows): void {
    const chain = this.chain!;
    const layers = chain.pieces.map((piece) => {
      const { layer, middles } = piece.mesh;
      const index = this.run.layers.indexOf(layer);
      const upperMm = (this.radiiM[0]! - this.radiiM[index]!) * 1000;
      const inner = [...middles].map((middle) => upperMm + middle * layer.thicknessMm);
      const cells = [...celsius.subarray(piece.firstNode, piece.firstNode + middles.length)];
      return {
        id: layer.id,
        depthMm: [upperMm, ...inner, upperMm + layer.thicknessMm],
        celsius: [
          upperFaceC(chain, piece, celsius, flows),
          ...cells,
          lowerFaceC(chain, piece, celsius, flows),
        ],
      };
    });
    this.profiles.push({ seconds, layers });
  }

  endPhase(
    endSeconds: number,
    energy: { readonly intoStackJPerM2: number; readonly platenLossJPerM2: number },
  ): void {
    const { name, start, first } = this.current!;
    this.spans.push({
      name,
      startSeconds: start,
      endSeconds,
      first,
      last: this.seconds.length - 1,
      ...energy,
    });
  }

  result(energy: EnergyAccount): HeatResult {
    return {
      seconds: Float64Array.from(this.seconds),
      probes: Object.fromEntries(
        this.run.probes.map((probe, p) => [probe.name, Float64Array.from(this.values[p]!)]),
      ),
      topPlatenC: this.run.topPlaten === undefined ? null : Float64Array.from(this.top),
      bottomPlatenC: this.run.bottomPlaten === undefined ? null : Float64Array.from(this.bottom),
      heatersWPerM2: Float64Array.from(this.power),
      intoStackWPerM2: Float64Array.from(this.entering),
      phases: this.spans,
      energy,
      profiles: this.profiles,
    };
  }
}
