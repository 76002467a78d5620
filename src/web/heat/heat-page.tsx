import { useDebouncedValue, useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate, useSearch } from '@tanstack/react-router';
import { type HeatLook, type HeatQuestion, heatQuestionSchema } from '#contract';
import { useBlanks, useHeatLook, usePresses } from '../api/index.js';
import { Cautions, ProblemNote, Said, Told, Working } from '../frame/index.js';
import { StartRecipe } from '../recipes/start-recipe.js';
import styles from './heat.module.css';
import { HeatCurve } from './heat-curve.js';
import { HeatFacts } from './heat-facts.js';
import { HeatQuestionFields } from './heat-question.js';
import type { HeatSearch } from './search.js';
import { StackDrawing } from './stack-drawing.js';

/** What heat does in a press: the curve of the dye's place, what it means, and a start recipe for what is new. */
export function HeatPage() {
  useDocumentTitle('Heat · Dyewright');
  const search = useSearch({ from: '/press/heat' });
  const navigate = useNavigate({ from: '/press/heat' });
  const blanks = useBlanks();
  const presses = usePresses();
  const blank = blanks.data?.find((one) => one.id === search.blank) ?? null;
  const press = presses.data?.find((one) => one.id === search.press) ?? null;
  const change = (next: Partial<HeatSearch>) =>
    void navigate({ search: (old) => ({ ...old, ...next }), replace: true, resetScroll: false });
  const [asked] = useDebouncedValue(search, 350);
  const look = useHeatLook(questionOf(asked));
  const shown = asked.blank === undefined ? null : (look.data ?? null);
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        {blank && (
          <p className={styles.name}>
            {blank.name}
            {press ? ` on ${press.name}` : ''}
          </p>
        )}
        <h1>
          <Told
            text={
              shown && !look.error ? (shown.sentences[0] ?? 'Worked out.') : 'What heat does in the press'
            }
          />
        </h1>
        {!blank && (
          <p>
            Choose a blank, and the heat is followed through everything that lies in the press: when the place
            of the dye is hot enough, and what a few degrees or seconds change.
          </p>
        )}
      </header>
      {blanks.error && <ProblemNote error={blanks.error} />}
      <HeatQuestionFields
        blanks={blanks.data ?? []}
        presses={presses.data ?? []}
        blank={blank}
        search={search}
        onChange={change}
      />
      {look.error && <ProblemNote error={look.error} onAgain={() => void look.refetch()} />}
      {look.isLoading && <Working step="Following the heat" share={null} />}
      <Said text={look.isFetching ? '' : (shown?.sentences[0] ?? '')} />
      {shown && !look.error && (
        <Look
          look={shown}
          heater={
            press?.kind === 'oven' ? 'hot air' : blank?.shape.kind === 'cylinder' ? 'heated wrap' : 'platen'
          }
          platenC={asked.platenC ?? blank?.recipe.platenC ?? 200}
          bothSides={shown.question.bothSides ?? press?.heatedFrom === 'both'}
          busy={look.isFetching}
        />
      )}
      {blank && (
        <section aria-labelledby="start-title" className={styles.words}>
          <h2 id="start-title">Never pressed it before?</h2>
          <StartRecipe key={blank.id} blank={blank} pressId={press?.id ?? null} />
        </section>
      )}
      <p className={styles.foot}>
        <Link to="/press">Press</Link>
        {blank && (
          <Link to="/press/recipes/$blankId" params={{ blankId: blank.id }}>
            Recipes of {blank.name}
          </Link>
        )}
        <Link
          to="/press/force"
          search={{ ...(press ? { press: press.id } : {}), ...(blank ? { blank: blank.id } : {}) }}
        >
          What the press pushes with
        </Link>
      </p>
    </div>
  );
}

function Look(props: {
  readonly look: HeatLook;
  readonly platenC: number;
  readonly bothSides: boolean;
  readonly heater: string;
  readonly busy: boolean;
}) {
  const { look } = props;
  return (
    <div className={styles.look} aria-busy={props.busy}>
      <div className={styles.words}>
        {look.sentences.slice(1).map((sentence) => (
          <p key={sentence}>
            <Told text={sentence} />
          </p>
        ))}
      </div>
      <div className={styles.columns}>
        <HeatCurve look={look} />
        <StackDrawing look={look} platenC={props.platenC} bothSides={props.bothSides} heater={props.heater} />
      </div>
      <section aria-labelledby="figures-title" className={styles.figures}>
        <h2 id="figures-title">In figures</h2>
        <HeatFacts look={look} />
      </section>
      <Cautions cautions={look.cautions} />
      <details className={styles.assumed}>
        <summary>What this was worked out with</summary>
        <ul>
          {look.assumed.map((one) => (
            <li key={one}>
              <Told text={one} />
            </li>
          ))}
        </ul>
      </details>
    </div>
  );
}

/** The question to send; null: no blank yet, or a figure that its field already says cannot be. */
function questionOf(search: HeatSearch): HeatQuestion | null {
  if (search.blank === undefined) return null;
  const question: HeatQuestion = {
    blankId: search.blank,
    ...(search.press ? { pressId: search.press } : {}),
    ...(search.platenC === undefined ? {} : { platenC: search.platenC }),
    ...(search.seconds === undefined ? {} : { dwellSeconds: search.seconds }),
    ...(search.pressure ? { pressure: search.pressure } : {}),
    ...(search.thicknessMm === undefined ? {} : { thicknessMm: search.thicknessMm }),
    ...(search.startC === undefined ? {} : { blankStartC: search.startC }),
    ...(search.faceDown === undefined ? {} : { faceDown: search.faceDown }),
    ...(search.prePress === undefined ? {} : { prePressSeconds: search.prePress }),
  };
  return heatQuestionSchema.safeParse(question).success ? question : null;
}
