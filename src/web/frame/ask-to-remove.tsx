import { Button } from '@mantine/core';
import { useState } from 'react';

/** Removing asks once, in place. */
export function AskToRemove({ what, onRemove }: { readonly what?: string; onRemove(): void }) {
  const [asking, setAsking] = useState(false);
  const label = what === undefined ? {} : { 'aria-label': `Remove ${what}…` };
  if (!asking) {
    return (
      <button type="button" className="link-button" onClick={() => setAsking(true)} {...label}>
        Remove…
      </button>
    );
  }
  return (
    <>
      <Button variant="default" onClick={onRemove}>
        Remove for good
      </Button>
      <button type="button" className="link-button" onClick={() => setAsking(false)}>
        No, leave it
      </button>
    </>
  );
}
