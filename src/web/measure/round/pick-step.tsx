import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { ColourPath, TestSheet } from '#contract';
import { useLearnByEye } from '../../api/index.js';
import { ProblemNote, Working } from '../../frame/index.js';
import { LearntPath } from './learnt-path.js';
import { PickRow } from './pick-row.js';
import styles from './round.module.css';

type Question = 'from-black' | 'from-white' | 'like-card';
const questions: Record<Question, string> = {
  'from-black': 'Which is the first step you can tell from black?',
  'from-white': 'Which is the first step you can tell from white?',
  'like-card': 'Which step is as light as the grey card?',
};

/** Greys picked from the pressed sheet, in words and a colourless drawing; then the path. */
export function PickStep(props: {
  readonly sheet: TestSheet;
  readonly path: ColourPath | null;
  onLearnt(pathId: string): void;
}) {
  const { sheet, path, onLearnt } = props;
  const rows = sheet.grey?.rows ?? [];
  const tone = sheet.grey?.tone ?? [];
  const [neutrals, setNeutrals] = useState<readonly (string | null)[]>(() => rows.map(() => null));
  const [tones, setTones] = useState<Partial<Record<Question, string>>>({});
  const [name, setName] = useState('');
  const [again, setAgain] = useState(false);
  const learning = useLearnByEye();
  if (path && !again) {
    return (
      <>
        <LearntPath path={path} />
        <div>
          <button type="button" className="link-button" onClick={() => setAgain(true)}>
            Pick again
          </button>
        </div>
      </>
    );
  }
  const usual = `${sheet.blankName}, ${sheet.setupName}, by eye`;
  const left =
    neutrals.filter((label) => label === null).length +
    tone.filter((row) => tones[row.question] === undefined).length;
  return (
    <form
      className={styles.picks}
      aria-label="Greys picked by eye"
      onSubmit={(event) => {
        event.preventDefault();
        const labels = neutrals.filter((label) => label !== null);
        if (left > 0) return;
        learning.mutate(
          {
            sheetId: sheet.id,
            name: name.trim() || usual,
            neutrals: labels,
            fromBlack: tones['from-black'] ?? '',
            fromWhite: tones['from-white'] ?? '',
            likeCard: tones['like-card'] ?? '',
          },
          {
            onSuccess: (learnt) => {
              setAgain(false);
              onLearnt(learnt.id);
            },
          },
        );
      }}
    >
      <p>
        Take the pressed sheet to a window, out of the sun, with a grey card (18 %) beside it. Look at one
        field at a time, half a minute, and say which swatch has no tint at all beside the card. The drawings
        here bear no colours on purpose: judge on the piece, not on the screen.
      </p>
      <div className={styles.pickGrid}>
        {rows.map((row, i) => (
          <PickRow
            key={row.level}
            question={`Field ${fieldLetter(row.candidates) ?? i + 1}: which is the most neutral?`}
            name={`neutral-${i}`}
            greyLevel={row.level}
            places={row.candidates.map(({ label, aStep }) => ({ label, x: aStep }))}
            picked={neutrals[i] ?? null}
            onPick={(label) => setNeutrals(neutrals.map((old, at) => (at === i ? label : old)))}
          />
        ))}
      </div>
      {tone.map((row) => (
        <PickRow
          key={row.question}
          question={questions[row.question]}
          name={row.question}
          greyLevel={null}
          places={row.steps.map(({ label }, at) => ({ label, x: at }))}
          picked={tones[row.question] ?? null}
          onPick={(label) => setTones({ ...tones, [row.question]: label })}
        />
      ))}
      <TextInput
        size="md"
        label="Call the path"
        placeholder={usual}
        value={name}
        maxLength={120}
        onChange={(event) => setName(event.currentTarget.value)}
      />
      <p id="picks-left" className="soft" role="status">
        {left === 0
          ? 'All picked. Grade E: greys and contrast are put right by eye; strong colours are not measured.'
          : left === 1
            ? 'One more to pick.'
            : `${left} more to pick.`}
      </p>
      {learning.isPending ? (
        <Working step="Making the path" share={null} />
      ) : (
        <div>
          <Button type="submit" size="lg" disabled={left > 0} aria-describedby="picks-left">
            Make the path from these
          </Button>
        </div>
      )}
      {learning.error && <ProblemNote error={learning.error} />}
    </form>
  );
}

/** 'A', when all of a field's labels begin with it. */
function fieldLetter(candidates: readonly { readonly label: string }[]): string | null {
  const letter = /^[A-Z]+/.exec(candidates[0]?.label ?? '')?.[0] ?? null;
  return letter !== null && candidates.every((one) => one.label.startsWith(letter)) ? letter : null;
}
