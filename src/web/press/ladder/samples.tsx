import { formatHex, srgb8FromLab } from '#craft/colour';
import { brownHueDegrees } from '#craft/presswindow';

/** A black of L* 22 leaning by 9 CIELAB units, plainly seen; the direction is the one the window is fitted along. */
const lean = (units: number): string => {
  const angle = (brownHueDegrees * Math.PI) / 180;
  return formatHex(srgb8FromLab([22, units * Math.cos(angle), units * Math.sin(angle)]));
};
const blacks = { green: lean(-9), neutral: lean(0), brown: lean(9) } as const;

/** As one might see it, on neutral grey. */
export const BlackSample = ({ black }: { readonly black: keyof typeof blacks }) => (
  <svg viewBox="0 0 44 32" width={44} height={32} aria-hidden="true">
    <rect width={44} height={32} rx={4} fill="#777" />
    <rect x={7} y={6} width={30} height={20} fill={blacks[black]} />
  </svg>
);

/** A letter’s foot, its edge sharp or spread. */
export const EdgeSample = ({ edges }: { readonly edges: 'crisp' | 'soft' }) => (
  <svg viewBox="0 0 44 32" width={44} height={32} aria-hidden="true">
    <rect width={44} height={32} rx={4} fill="#d9d9d9" />
    {(edges === 'soft' ? [5, 4, 3, 2, 1, 0] : [0]).map((spread) => (
      <path
        key={spread}
        d="M15 6V26M29 6V26M15 16H29"
        fill="none"
        stroke="#222"
        strokeWidth={4 + 1.3 * spread}
        strokeOpacity={edges === 'soft' ? 0.2 : 1}
      />
    ))}
  </svg>
);
