export function EvennessPage() {
  return <h1>Looking it up…</h1>;
}
