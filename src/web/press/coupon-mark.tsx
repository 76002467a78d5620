import type { CouponVerdict } from './coupon-verdict.js';

/**
 * A spent coupon in a picture: a square in the black that was seen, its verdict as a sign in it; empty with a question
 * mark where nothing is known, struck through where it was left out.
 */
export function CouponMark(props: {
  /** As read; null: no colour was read. */
  readonly black: string | null;
  readonly leftOut?: boolean;
  readonly verdict: CouponVerdict | null;
  readonly x: number;
  readonly y: number;
  readonly side?: number;
  /** Written beside it, on a grey ground. */
  readonly number?: number;
  /** The number beneath instead. */
  readonly below?: boolean;
}) {
  const { black, leftOut = false, verdict, x, y, side = 22, number, below = false } = props;
  const half = side / 2;
  return (
    <g transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`} opacity={leftOut ? 0.55 : 1}>
      <rect
        x={-half}
        y={-half}
        width={side}
        height={side}
        rx={3}
        fill={black ?? '#fff'}
        stroke={black ? '#fff' : '#222'}
        strokeWidth={1.6}
        strokeDasharray={black ? undefined : '3 2'}
      />
      <VerdictSign verdict={verdict} dark={black !== null} />
      {leftOut && (
        <path d={`M${-half} ${half}L${half} ${-half}`} stroke={black ? '#fff' : '#222'} strokeWidth={1.8} />
      )}
      {number !== undefined && (
        <text
          x={below ? 0 : half + 4}
          y={below ? half + 14 : 5}
          textAnchor={below ? 'middle' : 'start'}
          style={{
            fill: '#fff',
            stroke: '#2b2b2b',
            strokeWidth: 2.5,
            paintOrder: 'stroke',
            fontSize: 14,
            fontWeight: 600,
          }}
        >
          {number}
        </text>
      )}
    </g>
  );
}

/** Drawn, not typed, so that it looks alike everywhere. */
function VerdictSign({ verdict, dark }: { readonly verdict: CouponVerdict | null; readonly dark: boolean }) {
  if (verdict === null) {
    return (
      <text y={5} textAnchor="middle" style={{ fill: dark ? '#fff' : '#222', fontSize: 14, fontWeight: 600 }}>
        ?
      </text>
    );
  }
  const path = { under: 'M-5 0H5', right: 'M-5 0.5L-1.5 4L5.5 -4', over: 'M-5 0H5M0 -5V5' }[verdict];
  return (
    <>
      {dark && (
        <path d={path} fill="none" stroke="#000" strokeWidth={4.4} strokeLinecap="round" opacity={0.6} />
      )}
      <path d={path} fill="none" stroke={dark ? '#fff' : '#222'} strokeWidth={2.2} strokeLinecap="round" />
    </>
  );
}
