import { mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, loadavg } from 'node:os';

/** Something to be timed. Returns nothing; what it needs is set up beforehand. */
export type Case = () => void | Promise<void>;

export interface Timing {
  readonly medianMs: number;
  readonly fastestMs: number;
  readonly slowestMs: number;
  /** Processor time of the whole process, all threads: what is left of a figure when others take the cores. */
  readonly medianCpuMs: number;
}

/**
 * Time every case `rounds` times, one after another within each round, so that a noisy spell falls on all of them
 * alike. The first round warms up and does not count.
 */
export async function interleaved<Name extends string>(
  cases: Readonly<Record<Name, Case>>,
  rounds = 9,
): Promise<Record<Name, Timing>> {
  const names = Object.keys(cases) as Name[];
  const times = new Map<Name, { wall: number; cpu: number }[]>(names.map((name) => [name, []]));
  for (let round = 0; round <= rounds; round += 1) {
    for (const name of names) {
      const cpuBefore = process.cpuUsage();
      const start = performance.now();
      await cases[name]();
      const wall = performance.now() - start;
      const { user, system } = process.cpuUsage(cpuBefore);
      if (round > 0) times.get(name)?.push({ wall, cpu: (user + system) / 1000 });
    }
  }
  return Object.fromEntries(names.map((name) => [name, timing(times.get(name) ?? [])])) as Record<
    Name,
    Timing
  >;
}

/** Keep the figures of a bench as bench/out/<name>.json. */
export function save(name: string, figures: unknown): void {
  mkdirSync('bench/out', { recursive: true });
  const machine = {
    node: process.version,
    processor: cpus()[0]?.model ?? 'unknown',
    cores: availableParallelism(),
    load: loadavg()[0],
  };
  writeFileSync(`bench/out/${name}.json`, `${JSON.stringify({ machine, figures }, null, 2)}\n`);
}

function timing(times: readonly { wall: number; cpu: number }[]): Timing {
  const wall = times.map((time) => time.wall).sort((a, b) => a - b);
  const cpu = times.map((time) => time.cpu).sort((a, b) => a - b);
  return {
    medianMs: wall[Math.floor(wall.length / 2)] ?? 0,
    fastestMs: wall[0] ?? 0,
    slowestMs: wall.at(-1) ?? 0,
    medianCpuMs: cpu[Math.floor(cpu.length / 2)] ?? 0,
  };
}
