import { Button, Checkbox, Radio, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { ColourPath, Reading, TestSheet } from '#contract';
import { type Learning, useSetups } from '../../api/index.js';
import { ProblemNote, Working } from '../../frame/index.js';
import { dayText, gradeText } from '../../words/index.js';
import { fromNames } from '../words.js';
import { LearntPath } from './learnt-path.js';
import styles from './round.module.css';

/** From what was read to a colour path, and what to do with it. */
export function LearnStep(props: {
  readonly sheet: TestSheet;
  readonly readings: readonly Reading[];
  /** The path a follow-up sheet is for. */
  readonly base: ColourPath | null;
  readonly path: ColourPath | null;
  /** Followed by the page, so that it goes on while this step is folded. */
  readonly learning: Learning;
}) {
  const { sheet, readings, base, path, learning } = props;
  const usable = readings.filter((reading) => reading.subject === 'piece');
  const newest = usable[0];
  const setups = useSetups();
  const setup = setups.data?.find((one) => one.id === sheet.order.setupId) ?? null;
  const [leftOut, setLeftOut] = useState<ReadonlySet<string>>(new Set());
  const [name, setName] = useState('');
  const [use, setUse] = useState(true);
  const earlier = base?.measurement?.readingIds ?? [];
  const [how, setHow] = useState<'join' | 'adapt'>(earlier.length > 0 ? 'join' : 'adapt');
  const [again, setAgain] = useState(false);
  if (path && !again && !learning.busy) {
    return (
      <>
        <LearntPath path={path} />
        <div>
          <button type="button" className="link-button" onClick={() => setAgain(true)}>
            Learn it anew
          </button>
        </div>
      </>
    );
  }
  if (!newest) {
    return (
      <p>
        {readings.length > 0
          ? 'So far only the paper was read. Press the sheet and scan the piece: the path is learnt from that.'
          : 'Once the pressed sheet has been read, the path is learnt here.'}
      </p>
    );
  }
  const usual = base ? base.name : `${sheet.blankName}, ${sheet.setupName}`;
  const chosen = usable.filter((reading) => (usable.length === 1 ? true : !leftOut.has(reading.id)));
  return (
    <form
      className={styles.learn}
      aria-label="Learn the path"
      onSubmit={(event) => {
        event.preventDefault();
        if (chosen.length === 0) return;
        setAgain(false);
        const ids = chosen.map((reading) => reading.id);
        learning.learn({
          readingIds: base && how === 'join' ? [...earlier.filter((id) => !ids.includes(id)), ...ids] : ids,
          name: name.trim() || usual,
          ...(base && how === 'adapt' ? { basePathId: base.id } : {}),
          ...(use && setup ? { setupId: setup.id } : {}),
        });
      }}
    >
      {usable.length > 1 && (
        <fieldset className={styles.from}>
          <legend>Learnt from</legend>
          {usable.map((reading) => (
            <Checkbox
              key={reading.id}
              size="md"
              checked={!leftOut.has(reading.id)}
              onChange={(event) => {
                const next = new Set(leftOut);
                if (event.currentTarget.checked) next.delete(reading.id);
                else next.add(reading.id);
                setLeftOut(next);
              }}
              label={`${fromNames[reading.from]} ${reading.fileName}, ${gradeText(reading.grade)}, ${dayText(reading.createdAt)}`}
            />
          ))}
          <p className={styles.aside}>A path is as good as the worst reading it is made from.</p>
        </fieldset>
      )}
      {base && (
        <Radio.Group
          size="md"
          label={`What becomes of “${base.name}”`}
          value={how}
          onChange={(value) => setHow(value as typeof how)}
        >
          <div className={styles.radios}>
            {earlier.length > 0 && (
              <Radio
                size="md"
                value="join"
                label="Learn it anew, with these patches added"
                description="same printer, ink, paper, coating and recipe"
              />
            )}
            <Radio
              size="md"
              value="adapt"
              label="Adapt it"
              description="to another paper or blank; the old one stays"
            />
          </div>
        </Radio.Group>
      )}
      <TextInput
        size="md"
        label="Call the path"
        placeholder={usual}
        value={name}
        onChange={(event) => setName(event.currentTarget.value)}
        maxLength={120}
      />
      {setup && (
        <Checkbox
          size="md"
          checked={use}
          onChange={(event) => setUse(event.currentTarget.checked)}
          label={`Use it from now on for sheets printed with “${setup.name}”`}
        />
      )}
      {learning.busy ? (
        <Working
          step={learning.job?.step || 'Beginning'}
          share={learning.job?.progress || null}
          onCancel={learning.cancel}
        />
      ) : (
        <div className="row">
          <Button type="submit" size="lg" disabled={chosen.length === 0}>
            Learn the path
          </Button>
          {path && (
            <button type="button" className="link-button" onClick={() => setAgain(false)}>
              Leave it as it is
            </button>
          )}
        </div>
      )}
      {learning.stopped && <p role="status">Stopped. Nothing was kept.</p>}
      {learning.problem && <ProblemNote error={learning.problem} />}
    </form>
  );
}
