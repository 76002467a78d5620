import type { Chain } from './chain.js';
import { type Flows, stageWeights } from './stepper.js';
import type { EnergyAccount } from './types.js';

/**
 * Sums what crosses each border with the very weights the step itself uses, so that the account closes to rounding
 * unless the solution is wrong: C(T₁ − T₀) = Δt Σ bᵢFᵢ.
 */
export class EnergyLedger {
  private heaters = 0;
  private platenLoss = 0;
  private top = 0;
  private bottom = 0;
  private topTouch = 0;
  private bottomTouch = 0;
  private carried = 0;
  private carriedThroughput = 0;
  private stored = 0;

  step(
    chain: Chain,
    stages: readonly (readonly [Flows, Float64Array])[],
    from: Float64Array,
    to: Float64Array,
    seconds: number,
  ): void {
    stages.forEach(([flows, celsius], s) => {
      const weight = stageWeights[s]! * seconds;
      chain.ends.forEach((end, e) => {
        const joules = flows.ends[e]! * weight;
        if (end.account === 'heater') this.heaters += joules;
        else if (end.account === 'platen-loss') this.platenLoss -= joules;
        else if (end.account === 'top') this.top += joules;
        else this.bottom += joules;
      });
      const through = (link: number): number =>
        chain.links[link]! * (celsius[link]! - celsius[link + 1]!) * weight;
      if (chain.topTouch !== null) this.topTouch += through(chain.topTouch);
      if (chain.bottomTouch !== null) this.bottomTouch -= through(chain.bottomTouch);
    });
    for (let i = 0; i < chain.count; i += 1) this.stored += chain.capacities[i]! * (to[i]! - from[i]!);
  }

  /** A layer's warmth from 0 °C, as it is put down (plus) or taken away (minus). */
  carry(joules: number): void {
    this.carried += joules;
    this.carriedThroughput += Math.abs(joules);
    this.stored += joules;
  }

  /** What went into the stack so far, whatever faced it, and what the platens lost so far. */
  soFar(): { readonly intoStackJPerM2: number; readonly platenLossJPerM2: number } {
    return {
      intoStackJPerM2: this.topTouch + this.bottomTouch + this.top + this.bottom,
      platenLossJPerM2: this.platenLoss,
    };
  }

  account(): EnergyAccount {
    const crossed = [this.heaters, this.platenLoss, this.top, this.bottom, this.topTouch, this.bottomTouch];
    const throughput = crossed.reduce((sum, joules) => sum + Math.abs(joules), this.carriedThroughput);
    const gained = this.heaters - this.platenLoss + this.top + this.bottom + this.carried;
    return {
      heatersJPerM2: this.heaters,
      platenLossJPerM2: this.platenLoss,
      topJPerM2: this.top,
      bottomJPerM2: this.bottom,
      topPlatenToStackJPerM2: this.topTouch,
      bottomPlatenToStackJPerM2: this.bottomTouch,
      carriedInJPerM2: this.carried,
      storedJPerM2: this.stored,
      throughputJPerM2: throughput,
      closure: throughput === 0 ? 0 : Math.abs(gained - this.stored) / throughput,
    };
  }
}
