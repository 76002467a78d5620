import { type SVGProps, useId } from 'react';
import type { FlatOutline } from '#craft/blank';
import { grownOutline } from '#craft/blank';
import type { Placing } from './use-placing.js';

/** The face, its bleed and safe lines and the artwork, in pixels about (centreX, centreY). */
export function Face(props: {
  readonly outline: FlatOutline;
  readonly bleedMm: number;
  readonly safeMm: number;
  readonly handle: boolean;
  readonly pictureUrl: string;
  readonly placing: Placing;
  readonly scale: number;
  readonly centreX: number;
  readonly centreY: number;
}) {
  const { outline, bleedMm, safeMm, scale, centreX, centreY } = props;
  const { placed } = props.placing;
  const clip = useId();
  const image = (
    <image
      href={props.pictureUrl}
      x={(-placed.widthMm / 2) * scale}
      y={(-placed.heightMm / 2) * scale}
      width={placed.widthMm * scale}
      height={placed.heightMm * scale}
      preserveAspectRatio="none"
      transform={`translate(${placed.centreXMm * scale} ${placed.centreYMm * scale}) rotate(${placed.rotationDegrees})`}
    />
  );
  return (
    <g transform={`translate(${centreX} ${centreY})`}>
      <defs>
        <clipPath id={clip}>
          <Outline of={grownOutline(outline, bleedMm)} scale={scale} />
        </clipPath>
      </defs>
      <g opacity={0.28}>{image}</g>
      <Outline of={grownOutline(outline, bleedMm)} scale={scale} fill="#ffffff" />
      <g clipPath={`url(#${clip})`}>{image}</g>
      {bleedMm > 0 && <TwoTone of={grownOutline(outline, bleedMm)} scale={scale} dash="7 5" />}
      <TwoTone of={outline} scale={scale} />
      {safeMm > 0 && <TwoTone of={shrunk(outline, safeMm)} scale={scale} dash="1.5 5" />}
      {props.handle && (
        <g fill="#ffffff" fontSize={14} textAnchor="middle">
          <text transform={`translate(${-(outline.widthMm / 2 + bleedMm) * scale - 9} 0) rotate(-90)`}>
            handle
          </text>
          <text transform={`translate(${(outline.widthMm / 2 + bleedMm) * scale + 9} 0) rotate(90)`}>
            handle
          </text>
        </g>
      )}
    </g>
  );
}

/** Dark under light, so that the line shows on any artwork. */
function TwoTone({
  of,
  scale,
  dash,
}: {
  readonly of: FlatOutline;
  readonly scale: number;
  readonly dash?: string;
}) {
  return (
    <>
      <Outline
        of={of}
        scale={scale}
        fill="none"
        stroke="#000000"
        strokeOpacity={0.55}
        strokeWidth={2.6}
        {...(dash ? { strokeDasharray: dash } : {})}
      />
      <Outline
        of={of}
        scale={scale}
        fill="none"
        stroke="#ffffff"
        strokeWidth={1.2}
        {...(dash ? { strokeDasharray: dash } : {})}
      />
    </>
  );
}

function Outline({
  of,
  scale,
  ...paint
}: { readonly of: FlatOutline; readonly scale: number } & SVGProps<SVGRectElement & SVGEllipseElement>) {
  const width = Math.max(0, of.widthMm * scale);
  const height = Math.max(0, of.heightMm * scale);
  if (of.form === 'ellipse') return <ellipse rx={width / 2} ry={height / 2} {...paint} />;
  return (
    <rect
      x={-width / 2}
      y={-height / 2}
      width={width}
      height={height}
      rx={of.cornerRadiusMm * scale}
      {...paint}
    />
  );
}

const shrunk = (outline: FlatOutline, byMm: number): FlatOutline => ({
  ...outline,
  widthMm: outline.widthMm - 2 * byMm,
  heightMm: outline.heightMm - 2 * byMm,
  cornerRadiusMm: Math.max(0, outline.cornerRadiusMm - byMm),
});
