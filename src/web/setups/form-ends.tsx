import { Button } from '@mantine/core';
import { ProblemNote } from '../frame/index.js';
import { AskToRemove } from './ask-to-remove.js';

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
        {!props.isNew && <AskToRemove onRemove={props.onRemove} />}
      </div>
    </div>
  );
}
