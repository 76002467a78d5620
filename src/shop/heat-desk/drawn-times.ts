import type { HeatRun } from '#craft/heat';

/** Times at which courses are drawn: close together where a phase begins and temperatures move most. */
export function drawnTimes({ phases }: Pick<HeatRun, 'phases'>): number[] {
  const times = [0];
  let start = 0;
  for (const { name, seconds } of phases) {
    const points = name === 'press' || name === 'bake' ? 90 : name === 'cool' ? 60 : 16;
    for (let i = 1; i <= points; i += 1) times.push(start + seconds * (i / points) ** 1.7);
    start += seconds;
  }
  return times;
}
