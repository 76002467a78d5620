export function HeatPage() {
  return <h1>Looking it up…</h1>;
}
