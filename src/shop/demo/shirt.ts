import { letters } from './lettering.js';
import { club, oar } from './shapes.js';

/** Lettering for a shirt front, 180 × 240 mm, ten units a millimetre, on nothing: the cloth shows through. */
export function shirtLettering(): string {
  const w = 1800;
  const block = 1640;
  /** A line set as wide as the block, its foot at `y`. */
  const line = (text: string, y: number, fill: string, tracking = 0) => {
    const atHundred = letters(text, { size: 100, weight: 900, tracking });
    const set = letters(text, { size: (100 * block) / atHundred.width, weight: 900, tracking });
    return `<path d="${set.path}" transform="translate(${(w - set.width) / 2} ${y})" fill="${fill}"/>`;
  };
  const small = letters('SALTMARSH ROWING CLUB', { size: 92, weight: 600, tracking: 0.14 });
  const wave = (y: number, opacity: number, colour: string) =>
    `<path d="M150 ${y}q125 -72 250 0t250 0 250 0 250 0 250 0 250 0" fill="none" stroke="${colour}" stroke-width="30" stroke-linecap="round" opacity="${opacity}"/>`;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} 2400" width="${w}" height="2400">
${line('PULL', 660, club.ink, 0.01)}
${line('WITH THE', 990, club.coral, 0.03)}
${line('TIDE', 1640, club.ink, 0.01)}
<g transform="translate(105 1815) scale(1.06)">${oar(1500, club.straw, club.coral, club.ink)}</g>
${wave(1990, 1, club.water)}${wave(2070, 0.6, club.water)}${wave(2150, 0.25, club.water)}
<path d="${small.path}" transform="translate(${(w - small.width) / 2} 2345)" fill="${club.ink}"/>
</svg>`;
}
