import type { Blank } from '#contract';
import { isBag, isCushion, isShirt } from '../words/index.js';

const line = {
  fill: 'none',
  stroke: 'currentColor',
  strokeWidth: 1.5,
  strokeLinecap: 'round',
  strokeLinejoin: 'round',
} as const;
const body = { ...line, fill: 'var(--raised)' } as const;
const faint = { ...line, strokeWidth: 1, opacity: 0.55 } as const;

/** A small outline drawing of the blank, in its own proportions. Decoration: the name stands beside it. */
export function BlankDrawing({
  blank,
  width = 96,
}: {
  readonly blank: Pick<Blank, 'shape' | 'material' | 'name'>;
  readonly width?: number;
}) {
  return (
    <svg viewBox="0 0 96 80" width={width} height={(width * 80) / 96} aria-hidden="true" focusable="false">
      <Drawing blank={blank} />
    </svg>
  );
}

function Drawing({ blank }: { readonly blank: Pick<Blank, 'shape' | 'material' | 'name'> }) {
  const { shape, material, name } = blank;
  if (shape.kind === 'cylinder')
    return <Cup diameter={shape.diameterMm} height={shape.heightMm} handle={shape.handle} />;
  if (material === 'textile') {
    if (isShirt(name)) return <Shirt />;
    if (isBag(name)) return <Bag />;
    if (isCushion(name)) return <Cushion />;
  }
  const fit = Math.min(72 / shape.widthMm, 60 / shape.heightMm);
  const w = shape.widthMm * fit;
  const h = shape.heightMm * fit;
  const x = 48 - w / 2;
  const y = 38 - h / 2;
  const thick = material === 'metal' || material === 'textile' ? 1.2 : 3.5;
  if (shape.kind === 'ellipse') {
    return (
      <g>
        <ellipse cx={48} cy={38 + thick} rx={w / 2} ry={h / 2} {...body} />
        <ellipse cx={48} cy={38} rx={w / 2} ry={h / 2} {...body} />
        {Math.max(shape.widthMm, shape.heightMm) < 70 && <circle cx={48} cy={y + 6} r={2.4} {...line} />}
        <Surface material={material} x={48 - w / 3} y={38 - h / 3} w={w / 1.5} h={h / 1.5} />
      </g>
    );
  }
  const corner = Math.max(1, Math.min(shape.cornerRadiusMm * fit, w / 2, h / 2));
  if (material === 'slate') return <Slate x={x} y={y} w={w} h={h} />;
  return (
    <g>
      <rect x={x} y={y + thick} width={w} height={h} rx={corner} {...body} />
      <rect x={x} y={y} width={w} height={h} rx={corner} {...body} />
      <Surface material={material} x={x} y={y} w={w} h={h} />
    </g>
  );
}

function Cup({
  diameter,
  height,
  handle,
}: {
  readonly diameter: number;
  readonly height: number;
  readonly handle: boolean;
}) {
  const fit = Math.min(62 / height, (handle ? 52 : 66) / diameter);
  const w = diameter * fit;
  const h = height * fit;
  const x = (handle ? 41 : 48) - w / 2;
  const y = 40 - h / 2;
  const round = Math.max(3, w * 0.11);
  return (
    <g>
      {handle && (
        <path
          d={`M${x + w - 1} ${y + h * 0.2} c${w * 0.42} ${-h * 0.06} ${w * 0.44} ${h * 0.62} ${0} ${h * 0.6}`}
          {...line}
          strokeWidth={4.5}
        />
      )}
      {handle && (
        <path
          d={`M${x + w - 1} ${y + h * 0.2} c${w * 0.42} ${-h * 0.06} ${w * 0.44} ${h * 0.62} ${0} ${h * 0.6}`}
          fill="none"
          stroke="var(--raised)"
          strokeWidth={1.8}
        />
      )}
      <path d={`M${x} ${y} v${h} a${w / 2} ${round} 0 0 0 ${w} 0 v${-h}`} {...body} />
      <ellipse cx={x + w / 2} cy={y} rx={w / 2} ry={round} {...body} />
      <path d={`M${x + w * 0.16} ${y + round + 5} v${h * 0.55}`} {...faint} />
    </g>
  );
}

const Shirt = () => (
  <g>
    <path d="M36 12 C40 19 56 19 60 12 L78 22 L71 38 L65 35 V70 H31 V35 L25 38 L18 22 Z" {...body} />
    <path d="M36 12 C40 22 56 22 60 12" {...faint} />
    <rect x={38} y={29} width={20} height={26} strokeDasharray="2.5 2.5" {...faint} />
  </g>
);
const Bag = () => (
  <g>
    <path d="M38 30 C36 2 60 2 58 30" {...line} />
    <path d="M24 26 H72 L75 72 H21 Z" {...body} />
    <rect x={36} y={37} width={24} height={24} strokeDasharray="2.5 2.5" {...faint} />
  </g>
);
const Cushion = () => (
  <g>
    <path d="M20 12 Q48 18 76 12 Q70 40 76 68 Q48 62 20 68 Q26 40 20 12 Z" {...body} />
    <path d="M27 20 Q32 26 36 27 M69 60 Q64 55 60 53" {...faint} />
  </g>
);

/** Hewn edges: the same small unevenness every time. */
function Slate({
  x,
  y,
  w,
  h,
}: {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}) {
  const wobble = [0.6, -0.9, 0.4, -0.5, 1, -0.7, 0.2, -0.4];
  const side = (x1: number, y1: number, x2: number, y2: number, phase: number) =>
    Array.from({ length: 8 }, (_, i) => {
      const t = i / 8;
      const off = wobble[(i + phase) % 8] ?? 0;
      const across = Math.abs(x2 - x1) > Math.abs(y2 - y1);
      return `${(x1 + (x2 - x1) * t + (across ? 0 : off)).toFixed(1)} ${(y1 + (y2 - y1) * t + (across ? off : 0)).toFixed(1)}`;
    });
  const points = [
    ...side(x, y, x + w, y, 0),
    ...side(x + w, y, x + w, y + h, 3),
    ...side(x + w, y + h, x, y + h, 5),
    ...side(x, y + h, x, y, 1),
  ];
  return (
    <g>
      <polygon
        points={points
          .map((p) => p.replace(/ (\S+)$/, (_, v: string) => ` ${(Number(v) + 3.5).toFixed(1)}`))
          .join(' ')}
        {...body}
      />
      <polygon points={points.join(' ')} {...body} />
      <path
        d={`M${x + w * 0.12} ${y + h * 0.8} l${w * 0.2} -2 M${x + w * 0.6} ${y + h * 0.2} l${w * 0.24} 2`}
        {...faint}
      />
    </g>
  );
}

function Surface({
  material,
  x,
  y,
  w,
  h,
}: {
  readonly material: Blank['material'];
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}) {
  if (material === 'glass' || material === 'metal' || material === 'ceramic') {
    return (
      <path
        d={`M${x + w * 0.14} ${y + h * 0.34} L${x + w * 0.34} ${y + h * 0.14} M${x + w * 0.14} ${y + h * 0.5} L${x + w * 0.5} ${y + h * 0.14}`}
        {...faint}
      />
    );
  }
  if (material === 'wood-board') {
    return (
      <path
        d={`M${x + 5} ${y + h * 0.3} q${w * 0.25} -3 ${w * 0.45} 0 t${w * 0.35} 0 M${x + 5} ${y + h * 0.7} q${w * 0.2} 3 ${w * 0.4} 0 t${w * 0.3} 0`}
        {...faint}
      />
    );
  }
  if (material === 'textile') {
    return (
      <rect
        x={x + 3}
        y={y + 3}
        width={Math.max(1, w - 6)}
        height={Math.max(1, h - 6)}
        strokeDasharray="2 2"
        {...faint}
      />
    );
  }
  return null;
}
