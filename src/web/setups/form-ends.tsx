import { Button } from '@mantine/core';
import { useState } from 'react';
import { ProblemNote } from '../frame/index.js';

/** Keep, leave, remove; removing asks once, in place. */
export function FormEnds(props: {
  readonly isNew: boolean;
  readonly complained: boolean;
  readonly busy: boolean;
  readonly error: unknown;
  onKeep(): void;
  onClose(): void;
  onRemove(): void;
}) {
  const [sure, setSure] = useState(false);
  return (
    <div className="stack">
      {props.complained && (
        <p role="alert">Some fields hold a value that cannot be; each says what is allowed.</p>
      )}
      {props.error !== null && props.error !== undefined && <ProblemNote error={props.error} />}
      <div className="row">
        <Button loading={props.busy} onClick={props.onKeep}>
          Keep
        </Button>
        <Button variant="default" onClick={props.onClose}>
          Leave as it was
        </Button>
        {!props.isNew && !sure && (
          <button type="button" className="link-button" onClick={() => setSure(true)}>
            Remove…
          </button>
        )}
        {sure && (
          <>
            <Button variant="default" onClick={props.onRemove}>
              Remove for good
            </Button>
            <button type="button" className="link-button" onClick={() => setSure(false)}>
              No, leave it
            </button>
          </>
        )}
      </div>
    </div>
  );
}
