export function NewEvennessPage() {
  return <h1>Looking it up…</h1>;
}
