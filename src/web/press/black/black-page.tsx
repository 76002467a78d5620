import { NumberInput, Radio, Select } from '@mantine/core';
import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate, useSearch } from '@tanstack/react-router';
import { useState } from 'react';
import type { BlackQuestion } from '#contract';
import { fahrenheitToCelsius } from '#craft/units';
import { useBlackAnswer, useBlanks, useLadders } from '../../api/index.js';
import { ProblemNote, usePreferences } from '../../frame/index.js';
import { dayText, toDegrees } from '../../words/index.js';
import styles from './black.module.css';
import { BlackAnswerView } from './black-answer.js';
import { BlackField, type SeenBlack } from './black-field.js';

const newestLadder = 'newest';

/** Pressed too little or too much, from one black alone. */
export function BlackPage() {
  useDocumentTitle('One black · Press · Dyewright');
  const search = useSearch({ from: '/press/black' });
  const navigate = useNavigate({ from: '/press/black' });
  const { temperatureUnit: unit } = usePreferences();
  const blanks = useBlanks();
  const ladders = useLadders();
  const [seen, setSeen] = useState<SeenBlack>({ by: 'eye', eye: null, lab: null });
  const [typed, setTyped] = useState<{ platenC: number | null; seconds: number | null }>({
    platenC: null,
    seconds: null,
  });
  const blank = blanks.data?.find((one) => one.id === search.blank) ?? null;
  const usable = (ladders.data ?? []).filter(
    (ladder) => ladder.window !== null && (!blank || ladder.blankId === blank.id),
  );
  const ladder = usable.find((one) => one.sheetId === search.ladder) ?? null;
  const platenC = typed.platenC ?? blank?.recipe.platenC ?? 200;
  const seconds = typed.seconds ?? blank?.recipe.dwellSeconds ?? 60;
  const black =
    seen.by === 'eye' ? (seen.eye ? { byEye: seen.eye } : null) : seen.lab ? { lab: seen.lab } : null;
  const question: BlackQuestion | null = black && {
    black,
    step: { platenC, dwellSeconds: seconds },
    ...(ladder ? { ladderId: ladder.sheetId } : {}),
    ...(blank ? { blankId: blank.id } : {}),
  };
  const answer = useBlackAnswer(question);
  return (
    <div className={styles.page}>
      <div className={styles.lead}>
        <p>
          <Link to="/press">Press</Link>
        </p>
        <h1>Too little or too much, from one black.</h1>
        <p className="soft">
          A black turns green where it was pressed too short or too cool, and brown where too long or too hot.
          Look at a piece, or at one patch of it, where the artwork is plain black.
        </p>
      </div>
      <div className={styles.columns}>
        <div className={styles.fields}>
          <BlackField seen={seen} onChange={setSeen} />
          <fieldset className={styles.group}>
            <legend>It was pressed</legend>
            <Select
              size="md"
              label="On"
              placeholder="Which blank?"
              searchable
              clearable
              clearButtonProps={{ 'aria-label': 'No blank named' }}
              nothingFoundMessage="No blank is called that."
              data={(blanks.data ?? []).map((one) => ({ value: one.id, label: one.name }))}
              value={blank?.id ?? null}
              onChange={(id) => {
                setTyped({ platenC: null, seconds: null });
                void navigate({ search: id ? { blank: id } : {}, replace: true, resetScroll: false });
              }}
            />
            <div className={styles.two}>
              <NumberInput
                size="md"
                label={`At (true °${unit})`}
                value={Math.round(toDegrees(platenC, unit))}
                onChange={(value) => {
                  if (typeof value !== 'number' || value === Math.round(toDegrees(platenC, unit))) return;
                  setTyped((old) => ({
                    ...old,
                    platenC: unit === 'C' ? value : Math.round(10 * fahrenheitToCelsius(value)) / 10,
                  }));
                }}
              />
              <NumberInput
                size="md"
                label="For (s)"
                value={seconds}
                min={1}
                max={1800}
                onChange={(value) =>
                  typeof value === 'number' && setTyped((old) => ({ ...old, seconds: value }))
                }
              />
            </div>
          </fieldset>
          {usable.length > (blank ? 1 : 0) && (
            <Radio.Group
              size="md"
              label="Held against"
              value={ladder?.sheetId ?? newestLadder}
              onChange={(value) =>
                void navigate({
                  search: (old) => ({ ...old, ladder: value === newestLadder ? undefined : value }),
                  replace: true,
                  resetScroll: false,
                })
              }
            >
              <div className={styles.radios}>
                <Radio
                  size="md"
                  value={newestLadder}
                  label={blank ? 'The newest ladder of this blank' : 'Common practice'}
                />
                {usable.map((one) => (
                  <Radio
                    key={one.sheetId}
                    size="md"
                    value={one.sheetId}
                    label={`Ladder of ${dayText(one.updatedAt)}, ${one.blankName}`}
                  />
                ))}
              </div>
            </Radio.Group>
          )}
        </div>
        <div className={styles.answer}>
          {(blanks.error ?? ladders.error) && <ProblemNote error={blanks.error ?? ladders.error} />}
          {answer.error && <ProblemNote error={answer.error} />}
          {question && answer.data && !answer.error ? (
            <BlackAnswerView answer={answer.data} ladders={ladders.data ?? []} />
          ) : (
            !answer.error && (
              <p className={styles.wait}>
                {question ? 'Looking it over…' : 'Say what the black looks like, and the answer stands here.'}
              </p>
            )
          )}
        </div>
      </div>
    </div>
  );
}
