import { useDebouncedValue, useDocumentTitle } from '@mantine/hooks';
import { Link, useParams } from '@tanstack/react-router';
import type { ColourPath } from '#contract';
import { useColourAnswers, useColourPath } from '../../api/index.js';
import { ProblemNote, Working } from '../../frame/index.js';
import { differenceBasis, trustText } from '../../words/index.js';
import { AnswerMore, AnswerView } from './answer-view.js';
import { ColourFields } from './colour-fields.js';
import styles from './lookup.module.css';
import { PaletteView } from './palette-view.js';
import { askedByHex, questionOf, shownOnScreen, useAsked } from './use-asked.js';
import { usePalette } from './use-palette.js';

/** Any colour asked of a path: what will come out, how near, and what prints instead. */
export function LookupPage() {
  const { pathId } = useParams({ from: '/paths/$pathId/lookup' });
  const path = useColourPath(pathId);
  useDocumentTitle(`Colour lookup · ${path.data?.name ?? ''} · Dyewright`);
  if (path.error) return <ProblemNote error={path.error} onAgain={() => void path.refetch()} />;
  if (!path.data) return <h1>Looking it up…</h1>;
  return <Lookup key={pathId} path={path.data} />;
}

function Lookup({ path }: { readonly path: ColourPath }) {
  const { asked, ask } = useAsked();
  const palette = usePalette(path.id);
  // While the hand still moves there is nothing to ask.
  const [settled] = useDebouncedValue(asked, 120);
  const answers = useColourAnswers(path.id, [questionOf(settled)]);
  const answer = answers.data?.[0];
  const askHex = (hex: string) => {
    ask(askedByHex(hex));
    scrollTo({ top: 0 });
  };
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <h1>What will this colour come out as?</h1>
        <p>
          Through{' '}
          <Link to="/paths/$pathId" params={{ pathId: path.id }}>
            {path.name}
          </Link>
          : {trustText(path)}.
        </p>
      </header>
      <div className={styles.columns}>
        <div className={styles.top}>
          {answers.error && <ProblemNote error={answers.error} onAgain={() => void answers.refetch()} />}
          {answer && (
            <AnswerView
              answer={answer}
              beyondScreen={settled.by === 'lab' && !shownOnScreen(settled.lab)}
              stale={answers.isPlaceholderData || settled !== asked}
              palette={palette}
            />
          )}
          {!answer && !answers.error && <Working step="Asking the path" share={null} />}
        </div>
        <ColourFields asked={asked} onAsk={ask} />
        {answer && <AnswerMore answer={answer} onAsk={askHex} />}
      </div>
      <PaletteView path={path} palette={palette} onAsk={askHex} />
      <details>
        <summary>What “hardly seen” and “clearly different” mean</summary>
        <p className="soft">{differenceBasis}</p>
      </details>
    </div>
  );
}
