/** The colours of the invented club. */
export const club = {
  ink: '#16324a',
  deep: '#1d5560',
  water: '#2f8088',
  shoal: '#7fb8ae',
  reed: '#6f8446',
  straw: '#d9b96a',
  sun: '#f2a33a',
  coral: '#e2553d',
  blush: '#f3b699',
  cream: '#fbf4e4',
  sand: '#f0e2c8',
} as const;

/** Numbers 0..1 that are the same every time (mulberry32, public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const n = (value: number): string => String(Math.round(value * 100) / 100);

/** A band of water: a wavy upper edge from before x0 to beyond x1, filled down to `bottom`; the picture's edge cuts it. */
export function swell(
  x0: number,
  x1: number,
  y: number,
  bottom: number,
  wave: { length: number; height: number; shift: number },
  fill: string,
): string {
  const start = x0 - (1 + wave.shift) * wave.length;
  const half = wave.length / 2;
  let d = `M${n(start)} ${n(bottom)}V${n(y)}`;
  let up = 1;
  for (let x = start; x < x1; x += half) {
    d += `q${n(half / 2)} ${n(-up * wave.height)} ${n(half)} 0`;
    up = -up;
  }
  return `<path d="${d}V${n(bottom)}Z" fill="${fill}"/>`;
}

/** An oar lying along the x axis from its handle at 0 to the blade's end at `length`. */
export function oar(length: number, shaft: string, blade: string, tip: string): string {
  const t = length * 0.011;
  const b = length * 0.24;
  const w = length * 0.042;
  const x = length - b;
  return (
    `<rect x="${n(length * 0.1)}" y="${n(-t / 2)}" width="${n(x - length * 0.06)}" height="${n(t)}" fill="${shaft}"/>` +
    `<path d="M${n(x)} ${n(-t / 2)}C${n(x + b * 0.18)} ${n(-t / 2)} ${n(x + b * 0.22)} ${n(-w)} ${n(x + b * 0.4)} ${n(-w)}` +
    `H${n(x + b)}V${n(w * 0.82)}H${n(x + b * 0.4)}C${n(x + b * 0.22)} ${n(w * 0.82)} ${n(x + b * 0.18)} ${n(t / 2)} ${n(x)} ${n(t / 2)}Z" fill="${blade}"/>` +
    `<path d="M${n(x + b * 0.72)} ${n(-w)}H${n(x + b)}V${n(w * 0.82)}H${n(x + b * 0.72)}Z" fill="${tip}"/>` +
    `<rect x="0" y="${n(-t * 0.75)}" width="${n(length * 0.14)}" height="${n(t * 1.5)}" rx="${n(t * 0.75)}" fill="${tip}"/>`
  );
}

/** A coxed boat seen from the side, bow to the right, the water line at y = 0; `length` from stern to bow. */
export function boat(
  length: number,
  crew: number,
  colours: { hull: string; shirt: string; skin: string; oar: string },
): string {
  const u = length / 100;
  const hull = `<path d="M0 ${n(-1.5 * u)}C${n(14 * u)} ${n(-1.1 * u)} ${n(84 * u)} ${n(-1.1 * u)} ${n(100 * u)} ${n(-1.9 * u)}C${n(92 * u)} ${n(0.5 * u)} ${n(80 * u)} ${n(0.9 * u)} ${n(60 * u)} ${n(0.9 * u)}H${n(26 * u)}C${n(12 * u)} ${n(0.9 * u)} ${n(4 * u)} ${n(0.2 * u)} 0 ${n(-1.5 * u)}Z" fill="${colours.hull}"/>`;
  const span = 66 / crew;
  let people = cox(13 * u, u, colours);
  for (let seat = 0; seat < crew; seat += 1) people += rower((22 + seat * span) * u, u, colours);
  return people + hull;
}

/** Rowing towards the right with the back to the bow: leaning at the finish, the oar swept to the stern. */
function rower(x: number, u: number, colours: { shirt: string; skin: string; oar: string }): string {
  return (
    `<path d="M${n(x)} ${n(-1.2 * u)}L${n(x + 1.35 * u)} ${n(-4.3 * u)}" stroke="${colours.shirt}" stroke-width="${n(1.75 * u)}" stroke-linecap="round" fill="none"/>` +
    `<path d="M${n(x + 1.2 * u)} ${n(-3.9 * u)}L${n(x - 1.1 * u)} ${n(-2.7 * u)}" stroke="${colours.skin}" stroke-width="${n(0.62 * u)}" stroke-linecap="round"/>` +
    `<circle cx="${n(x + 1.75 * u)}" cy="${n(-6 * u)}" r="${n(0.98 * u)}" fill="${colours.skin}"/>` +
    `<path d="M${n(x - 1.1 * u)} ${n(-2.7 * u)}L${n(x - 5.2 * u)} ${n(1.5 * u)}" stroke="${colours.oar}" stroke-width="${n(0.3 * u)}"/>` +
    `<path d="M${n(x - 4.75 * u)} ${n(0.75 * u)}L${n(x - 6.3 * u)} ${n(2.3 * u)}" stroke="${colours.oar}" stroke-width="${n(0.95 * u)}"/>`
  );
}

function cox(x: number, u: number, colours: { shirt: string; skin: string }): string {
  return (
    `<path d="M${n(x)} ${n(-1.2 * u)}V${n(-3.1 * u)}" stroke="${colours.shirt}" stroke-width="${n(1.7 * u)}" stroke-linecap="round"/>` +
    `<circle cx="${n(x + 0.1 * u)}" cy="${n(-4.7 * u)}" r="${n(0.95 * u)}" fill="${colours.skin}"/>` +
    `<path d="M${n(x - 0.95 * u)} ${n(-4.95 * u)}A${n(0.98 * u)} ${n(0.98 * u)} 0 0 1 ${n(x + 1.05 * u)} ${n(-4.95 * u)}H${n(x + 1.9 * u)}V${n(-4.7 * u)}H${n(x - 0.95 * u)}Z" fill="${colours.shirt}"/>`
  );
}

/** A stand of reeds with cattails rising from `y`, leaning with the wind; the same for the same seed. */
export function reeds(
  x0: number,
  x1: number,
  y: number,
  height: number,
  count: number,
  seed: number,
  colours: readonly string[],
): string {
  const random = seeded(seed);
  let out = '';
  for (let i = 0; i < count; i += 1) {
    const x = x0 + (x1 - x0) * random();
    const h = height * (0.45 + 0.55 * random());
    const lean = h * (0.04 + 0.2 * random());
    const w = height * (0.006 + 0.008 * random());
    const colour = colours[Math.floor(random() * colours.length)] ?? colours[0]!;
    out += `<path d="M${n(x - w)} ${n(y)}Q${n(x - w * 0.4 + lean * 0.12)} ${n(y - h * 0.55)} ${n(x + lean)} ${n(y - h)}Q${n(x + w * 1.4 + lean * 0.2)} ${n(y - h * 0.5)} ${n(x + w)} ${n(y)}Z" fill="${colour}"/>`;
    if (random() < 0.34) {
      const ch = height * (0.1 + 0.05 * random());
      const angle = (Math.atan2(lean * 0.8, h * 0.5) * 180) / Math.PI;
      out += `<rect x="${n(-height * 0.014)}" y="${n(-ch / 2)}" width="${n(height * 0.028)}" height="${n(ch)}" rx="${n(height * 0.014)}" fill="#6b4a2f" transform="translate(${n(x + lean * 0.93)} ${n(y - h * 0.93)}) rotate(${n(angle)})"/>`;
    }
  }
  return out;
}

/** Pennants on a slack line from (x0, y0) to (x1, y1), sagging by `sag`. */
export function bunting(
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  sag: number,
  count: number,
  size: number,
  colours: readonly string[],
  line: string,
): string {
  const at = (t: number) => ({ x: x0 + (x1 - x0) * t, y: y0 + (y1 - y0) * t + 4 * sag * t * (1 - t) });
  let out = `<path d="M${n(x0)} ${n(y0)}Q${n((x0 + x1) / 2)} ${n((y0 + y1) / 2 + 2 * sag)} ${n(x1)} ${n(y1)}" fill="none" stroke="${line}" stroke-width="${n(size * 0.06)}"/>`;
  for (let i = 0; i < count; i += 1) {
    const t = (i + 0.5) / count;
    const half = (size * 0.42) / Math.hypot(x1 - x0, y1 - y0);
    const a = at(t - half);
    const b = at(t + half);
    const m = at(t);
    out += `<path d="M${n(a.x)} ${n(a.y)}L${n(b.x)} ${n(b.y)}L${n(m.x)} ${n(m.y + size)}Z" fill="${colours[i % colours.length]}"/>`;
  }
  return out;
}
