export function RecipePage() {
  return <h1>Looking it up…</h1>;
}
