/** Our sign: a letter and its mirror image, the middle line between. */
export const Mark = () => (
  <svg
    viewBox="0 0 32 32"
    width={34}
    height={34}
    fill="none"
    strokeWidth={2.6}
    strokeLinecap="round"
    aria-hidden="true"
  >
    <g stroke="var(--accent)">
      <path d="M12.4 6v19" />
      <circle cx={8.2} cy={20.4} r={4.4} />
    </g>
    <g stroke="var(--line-strong)">
      <path d="M19.6 6v19" />
      <circle cx={23.8} cy={20.4} r={4.4} />
    </g>
  </svg>
);
