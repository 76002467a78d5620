import { letters } from './lettering.js';
import { boat, club, oar, swell } from './shapes.js';

/** The club's banner, 316 × 466 mm with bleed, ten units a millimetre; kept as lines and shapes, drawn at any size. */
export function pennant(): string {
  const w = 3160;
  const h = 4660;
  const monogram = letters('SRC', { size: 1130, weight: 900, tracking: 0.03 });
  const below = letters('SALTMARSH', { size: 330, weight: 600, tracking: 0.16 });
  const stripe = (y: number, colour: string) =>
    swell(0, w, y, h, { length: 1053.4, height: 120, shift: 0.25 }, colour);
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} ${h}" width="${w}" height="${h}" preserveAspectRatio="xMidYMid slice">
<rect width="${w}" height="${h}" fill="${club.cream}"/>
<path d="M0 0H${w}V640L${w / 2} 1500L0 640Z" fill="${club.coral}"/>
<path d="M0 640L${w / 2} 1500L${w} 640V800L${w / 2} 1660L0 800Z" fill="${club.sun}"/>
<g transform="translate(${w / 2 - 660} 1210) rotate(-40)">${oar(1720, club.cream, club.cream, club.ink)}</g>
<g transform="translate(${w / 2 + 660} 1210) rotate(-140) scale(1 -1)">${oar(1720, club.cream, club.cream, club.ink)}</g>
<path d="${monogram.path}" transform="translate(${(w - monogram.width) / 2} 2640)" fill="${club.ink}"/>
<path d="${below.path}" transform="translate(${(w - below.width) / 2} 3060)" fill="${club.deep}"/>
${stripe(3520, club.shoal)}
<g transform="translate(330 3760)">${boat(2500, 8, { hull: club.ink, shirt: club.coral, skin: '#6e3f2a', oar: club.cream })}</g>
${stripe(3860, club.water)}${stripe(4110, club.deep)}${stripe(4370, club.ink)}
</svg>`;
}
