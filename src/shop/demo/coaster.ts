import { lettersRound } from './lettering.js';
import { club, oar, swell } from './shapes.js';

/** The regatta's emblem for a round coaster, 108 mm with bleed, ten units a millimetre. */
export function coaster(): string {
  const rays = Array.from({ length: 17 }, (_, i) => {
    const angle = -80 + i * 10;
    const long = i % 2 === 0;
    return `<path d="M-7 -${long ? 196 : 190}L0 -${long ? 262 : 228}L7 -${long ? 196 : 190}Z" fill="${long ? club.sun : club.straw}" transform="rotate(${angle})"/>`;
  }).join('');
  const upper = lettersRound('SALTMARSH ROWING CLUB', {
    size: 74,
    weight: 600,
    tracking: 0.1,
    radius: 358,
    degrees: 0,
  });
  const lower = lettersRound('REGATTA', {
    size: 74,
    weight: 900,
    tracking: 0.2,
    radius: 410,
    degrees: 180,
    feetOut: true,
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-540 -540 1080 1080" width="1080" height="1080">
<defs><clipPath id="inner"><circle r="312"/></clipPath><linearGradient id="dawn" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#2b6770"/><stop offset="1" stop-color="#efa27c"/></linearGradient></defs>
<rect x="-540" y="-540" width="1080" height="1080" fill="${club.ink}"/>
<g transform="scale(0.895)">
<circle r="452" fill="none" stroke="${club.straw}" stroke-width="5"/>
<circle r="466" fill="none" stroke="${club.straw}" stroke-width="1.6"/>
<circle r="330" fill="none" stroke="${club.straw}" stroke-width="5"/>
<g clip-path="url(#inner)">
<rect x="-320" y="-320" width="640" height="460" fill="url(#dawn)"/>
<g transform="translate(0 70)">${rays}<circle r="176" fill="${club.sun}"/><circle r="176" fill="${club.coral}" opacity="0.22"/></g>
${swell(-330, 330, 72, 340, { length: 168, height: 22, shift: 0.1 }, club.shoal)}
${swell(-330, 330, 128, 340, { length: 168, height: 22, shift: 0.55 }, club.water)}
${swell(-330, 330, 186, 340, { length: 168, height: 22, shift: 0.25 }, club.deep)}
${swell(-330, 330, 246, 340, { length: 168, height: 22, shift: 0.7 }, '#123047')}
</g>
<g transform="translate(-214 236) rotate(-48)">${oar(640, club.cream, club.cream, club.coral)}</g>
<g transform="translate(214 236) rotate(-132) scale(1 -1)">${oar(640, club.cream, club.cream, club.coral)}</g>
<path d="${upper}" fill="${club.cream}"/>
<path d="${lower}" fill="${club.coral}"/>
<g fill="${club.straw}"><circle cx="-388" cy="86" r="9"/><circle cx="388" cy="86" r="9"/></g>
</g>
</svg>`;
}
