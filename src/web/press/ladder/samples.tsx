import { formatHex, srgb8FromLab } from '#craft/colour';

/**
 * Blacks as people name them, CIELAB (D50): the bluish green of dye on its way, and the yellower brown of dye pressed too
 * long; leaning further than a piece would, to be told apart at this size. Drawn from common practice, not measured.
 */
const hexOf = (lab: [number, number, number]): string => formatHex(srgb8FromLab(lab));
const blacks = {
  green: hexOf([23, -9, 2]),
  neutral: hexOf([21, 0, 0]),
  brown: hexOf([23, 7, 8]),
} as const;

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
