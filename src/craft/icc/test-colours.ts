import { seeded } from './seeded.js';

/**
 * Device colours to judge a link by: spread over the whole space, then close to its faces and edges (where printers run
 * out of colour), then near neutral (where the eye is sharpest). None stands on a grid point except by chance.
 */
export function testColours(channels: number, count: number): Float64Array[] {
  const random = seeded(0x1cc);
  const colours: Float64Array[] = [];
  for (let i = 0; i < count; i += 1) {
    const colour = new Float64Array(channels);
    const kind = i % 4;
    const grey = random();
    for (let c = 0; c < channels; c += 1) {
      if (kind < 2) colour[c] = random();
      else if (kind === 2) colour[c] = Math.min(1, Math.max(0, grey + 0.04 * (random() - 0.5)));
      else if (random() < 0.4) colour[c] = random() < 0.5 ? 0.03 * random() : 1 - 0.03 * random();
      else colour[c] = random();
    }
    colours.push(colour);
  }
  return colours;
}
