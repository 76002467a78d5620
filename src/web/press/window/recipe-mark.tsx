/**
 * The recipe with what it bears: arms in time and in heat, their ends joined to a diamond, since both may not be used up
 * at once.
 */
export function RecipeMark(props: {
  readonly middle: readonly [number, number];
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}) {
  const { left, right, top, bottom } = props;
  const [x, y] = props.middle;
  const arms = `M${left} ${y}H${right}M${x} ${top}V${bottom}`;
  return (
    <g fill="none">
      <path
        d={`M${left} ${y}L${x} ${top}L${right} ${y}L${x} ${bottom}Z`}
        fill="#fff"
        fillOpacity={0.35}
        stroke="#111"
        strokeWidth={1.4}
      />
      <path d={arms} stroke="#111" strokeWidth={1.4} />
      <circle cx={x} cy={y} r={4.5} fill="#111" stroke="#fff" strokeWidth={1.5} />
    </g>
  );
}
