import { letters } from './lettering.js';
import { boat, bunting, club, reeds, swell } from './shapes.js';

/** A wrap for a straight mug, 234 × 99 mm with bleed, ten units a millimetre: evening on the marsh, three boats home. */
export function mugWrap(): string {
  const w = 2340;
  const h = 990;
  const horizon = 560;
  const title = letters('SALTMARSH', { size: 168, weight: 900, tracking: 0.045 });
  const club1 = letters('ROWING CLUB REGATTA', { size: 66, weight: 600, tracking: 0.112 });
  const crew = { hull: club.coral, shirt: club.cream, skin: '#7d4a32', oar: club.cream };
  const far = { hull: club.ink, shirt: club.sun, skin: '#c98d66', oar: club.ink };
  const further = { hull: club.ink, shirt: club.cream, skin: '#5b3526', oar: club.ink };
  const centre = 1480;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} ${h}" width="${w}" height="${h}">
<defs>
<linearGradient id="sky" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#bfe0dc"/><stop offset="0.42" stop-color="#fbeed2"/><stop offset="0.8" stop-color="#f9cfa4"/><stop offset="1" stop-color="#f0a27d"/></linearGradient>
<linearGradient id="sea" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#e9a283"/><stop offset="0.16" stop-color="#8db9ae"/><stop offset="0.5" stop-color="${club.water}"/><stop offset="1" stop-color="${club.ink}"/></linearGradient>
<clipPath id="above"><rect x="0" y="0" width="${w}" height="${horizon}"/></clipPath>
</defs>
<rect width="${w}" height="${horizon + 2}" fill="url(#sky)"/>
<circle cx="560" cy="${horizon - 40}" r="222" fill="#fbd58c" opacity="0.55" clip-path="url(#above)"/>
<circle cx="560" cy="${horizon - 40}" r="168" fill="${club.sun}" clip-path="url(#above)"/>
<path d="M0 ${horizon}V520C180 496 330 512 470 524S760 538 900 520 1230 486 1420 508 1720 536 1880 518 2190 492 ${w} 514V${horizon}Z" fill="#7fa08f"/>
<path d="M0 ${horizon}V544C150 530 310 540 520 547S930 546 1100 540 1520 528 1700 540 2120 546 ${w} 538V${horizon}Z" fill="#4d7a72"/>
<rect y="${horizon}" width="${w}" height="${h - horizon}" fill="url(#sea)"/>
<g fill="#fbd58c" opacity="0.85"><rect x="404" y="576" width="312" height="9" rx="4.5"/><rect x="436" y="602" width="248" height="9" rx="4.5"/><rect x="416" y="630" width="204" height="9" rx="4.5"/><rect x="478" y="660" width="190" height="8" rx="4"/><rect x="500" y="692" width="120" height="8" rx="4"/><rect x="528" y="726" width="96" height="7" rx="3.5"/></g>
<g transform="translate(1010 640)">${boat(360, 4, further)}</g>
<g transform="translate(1640 672)">${boat(440, 4, far)}</g>
${swell(0, w, 742, h, { length: 300, height: 16, shift: 0.2 }, 'rgba(29,85,96,0.55)')}
<g transform="translate(730 800)">${boat(980, 8, crew)}</g>
${swell(0, w, 836, h, { length: 260, height: 17, shift: 0.6 }, club.deep)}
${swell(0, w, 896, h, { length: 340, height: 20, shift: 0.1 }, club.ink)}
${reeds(-30, 300, h + 20, 560, 62, 7, ['#3d5a3c', club.reed, '#8c9a56', '#2f4a3a'])}
${reeds(2070, 2380, h + 20, 520, 54, 21, ['#3d5a3c', club.reed, '#8c9a56', '#2f4a3a'])}
${bunting(-40, 60, 820, 46, 44, 13, 74, [club.coral, club.cream, club.deep, club.sun], club.ink)}
${bunting(820, 46, 1600, 46, 40, 12, 74, [club.deep, club.sun, club.coral, club.cream], club.ink)}
${bunting(1600, 46, 2380, 58, 42, 12, 74, [club.coral, club.cream, club.deep, club.sun], club.ink)}
<path d="${title.path}" transform="translate(${centre - title.width / 2} 356)" fill="${club.ink}"/>
<path d="${club1.path}" transform="translate(${centre - club1.width / 2} 448)" fill="${club.coral}"/>
</svg>`;
}
