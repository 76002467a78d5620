/** A seeded stream of random numbers; the same seed gives the same stream on every machine. */
export interface Random {
  /** 0 ≤ integer < 2³². */
  bits(): number;
  /** 0 ≤ value < 1, 53 bits. */
  uniform(): number;
  /** Mean 0, standard deviation 1. */
  normal(): number;
  /** 0 ≤ integer < below. */
  integer(below: number): number;
  /** In place. */
  shuffle<T>(items: T[]): T[];
}

const length = 624;
const middle = 397;

/**
 * Mersenne Twister MT19937 (Matsumoto & Nishimura, ACM TOMACS 8(1), 1998; seeding of the authors' 2002 version,
 * as in ISO C++ [rand.eng.mers]).
 * @param seed taken modulo 2³²
 */
export function createRandom(seed: number): Random {
  const state = new Uint32Array(length);
  state[0] = seed >>> 0;
  for (let i = 1; i < length; i += 1) {
    const before = state[i - 1]! ^ (state[i - 1]! >>> 30);
    state[i] = Math.imul(1812433253, before) + i;
  }
  let next = length;
  let spare: number | null = null;

  function bits(): number {
    if (next === length) {
      twist(state);
      next = 0;
    }
    let y = state[next]!;
    next += 1;
    y ^= y >>> 11;
    y ^= (y << 7) & 0x9d2c5680;
    y ^= (y << 15) & 0xefc60000;
    y ^= y >>> 18;
    return y >>> 0;
  }

  /** 27 + 26 bits, as the authors' genrand_res53. */
  const uniform = (): number => {
    const high = bits() >>> 5;
    return (high * 67108864 + (bits() >>> 6)) / 9007199254740992;
  };

  /** Marsaglia's polar method (Marsaglia & Bray, SIAM Review 6(3), 1964). */
  function normal(): number {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const s = x * x + y * y;
      if (s > 0 && s < 1) {
        const scale = Math.sqrt((-2 * Math.log(s)) / s);
        spare = y * scale;
        return x * scale;
      }
    }
  }

  const integer = (below: number): number => Math.floor(uniform() * below);

  function shuffle<T>(items: T[]): T[] {
    for (let i = items.length - 1; i > 0; i -= 1) {
      const j = integer(i + 1);
      const kept = items[i] as T;
      items[i] = items[j] as T;
      items[j] = kept;
    }
    return items;
  }

  return { bits, uniform, normal, integer, shuffle };
}

function twist(state: Uint32Array): void {
  for (let i = 0; i < length; i += 1) {
    const y = (state[i]! & 0x80000000) | (state[(i + 1) % length]! & 0x7fffffff);
    state[i] = state[(i + middle) % length]! ^ (y >>> 1) ^ (y & 1 ? 0x9908b0df : 0);
  }
}
