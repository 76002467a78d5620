export function ForcePage() {
  return <h1>Looking it up…</h1>;
}
