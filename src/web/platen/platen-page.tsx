export function PlatenPage() {
  return <h1>Looking it up…</h1>;
}
