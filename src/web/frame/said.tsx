/** A line read aloud by screen readers when it changes; seen by no one. */
export function Said({ text }: { readonly text: string }) {
  return (
    <div role="status" className="said-only">
      {text}
    </div>
  );
}
