import type { ReactNode } from 'react';

/** Small line drawings, in the manner of those on Measure. */
function Drawing({ children }: { readonly children: ReactNode }) {
  return (
    <svg
      viewBox="0 0 120 84"
      width={120}
      height={84}
      fill="var(--raised)"
      stroke="currentColor"
      strokeWidth={1.5}
      strokeLinejoin="round"
      strokeLinecap="round"
      aria-hidden="true"
    >
      {children}
    </svg>
  );
}

export const CouponsDrawing = () => (
  <Drawing>
    <path d="M30 6 H90 V78 H30 Z" />
    {Array.from({ length: 6 }, (_, i) => {
      const [x, y] = [35 + (i % 2) * 27, 11 + Math.floor(i / 2) * 22];
      return (
        <g key={`${x} ${y}`}>
          <path d={`M${x} ${y} h23 v18 h-23 Z`} strokeDasharray="2 2.5" strokeWidth={1} />
          <rect x={x + 4} y={y + 5} width={7} height={9} fill="#3c3c3c" stroke="none" />
          <path
            d={`M${x + 14} ${y + 6} h6 M${x + 14} ${y + 10} h6 M${x + 14} ${y + 14} h4`}
            strokeWidth={1}
            fill="none"
          />
        </g>
      );
    })}
  </Drawing>
);

export const StepsDrawing = () => (
  <Drawing>
    <path d="M14 74 H106" fill="none" />
    {['#59635a', '#4b514c', '#3c3c3c', '#463f3a', '#523f33'].map((black, i) => (
      <g key={black}>
        <path d={`M${18 + i * 18} 74 V${60 - i * 9} h13 V74`} />
        <rect x={18 + i * 18} y={43 - i * 9} width={13} height={13} fill={black} stroke="none" />
      </g>
    ))}
  </Drawing>
);

export const ScanDrawing = () => (
  <Drawing>
    <path d="M12 56 H98 V72 H12 Z" />
    <path d="M12 56 L30 24 H108 L98 56 Z" />
    {[38, 60, 82].map((x) => (
      <path key={x} d={`M${x - 4} 50 l5 -9 h13 l-4 9 Z`} fill="#3c3c3c" stroke="none" />
    ))}
    <path d="M30 24 L22 8 H100 L108 24" fill="none" />
    <path d="M20 64 H36" fill="none" />
  </Drawing>
);

export const WindowDrawing = () => (
  <Drawing>
    <path d="M24 8 V68 H104" fill="none" />
    <path d="M34 20 C52 22 78 34 98 60 L70 64 C58 46 46 32 32 30 Z" fill="#b9b9b9" />
    <path d="M58 40 l8 -8 l10 9 l-9 8 Z" fill="#fdfbf7" />
    <circle cx={67} cy={40} r={2.6} fill="currentColor" />
  </Drawing>
);

export const EvennessDrawing = () => (
  <Drawing>
    {Array.from({ length: 24 }, (_, i) => {
      const [column, row] = [i % 6, Math.floor(i / 6)];
      const grey = Math.round(120 + 9 * column + 7 * row);
      return (
        <rect
          key={i.toString()}
          x={18 + column * 14}
          y={14 + row * 14}
          width={14}
          height={14}
          fill={`rgb(${grey} ${grey} ${grey})`}
          stroke="none"
        />
      );
    })}
    <path d="M18 14 h84 v56 h-84 Z" fill="none" />
  </Drawing>
);

export const HeatDrawing = () => (
  <Drawing>
    <path d="M20 8 V70 H106" fill="none" />
    <path d="M20 66 C34 30 46 22 76 20 C86 40 94 50 104 54" fill="none" strokeWidth={2.4} />
    <path d="M20 66 C40 58 56 38 78 34 C88 44 96 52 104 56" fill="none" strokeDasharray="4 3" />
    <path d="M20 24 H106" fill="none" strokeDasharray="1.5 4" />
  </Drawing>
);

export const ForceDrawing = () => (
  <Drawing>
    <circle cx={60} cy={44} r={30} />
    <path d="M40 60 A24 24 0 1 1 80 60" fill="none" strokeWidth={3} />
    <path d="M60 44 L76 30" fill="none" strokeWidth={2.4} />
    <circle cx={60} cy={44} r={3} fill="currentColor" />
  </Drawing>
);
