/** Small seeded generator (mulberry32, public domain): the same colours every time. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

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
