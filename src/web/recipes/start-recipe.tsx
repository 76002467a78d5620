import { Button, Select } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { Blank, RecipeSuggestion, SuggestRequest } from '#contract';
import { useAdoptRecipe, useBlanks, useSuggestion } from '../api/index.js';
import {
  Cautions,
  FigureField,
  ProblemNote,
  Said,
  TemperatureField,
  Told,
  usePreferences,
  Working,
} from '../frame/index.js';
import { secondsText, temperatureText } from '../words/index.js';
import styles from './recipe-page.module.css';

/** A recipe to begin with, carried over by the model of heat from a blank that works, and the way to make it the blank's. */
export function StartRecipe({ blank, pressId }: { readonly blank: Blank; readonly pressId: string | null }) {
  const blanks = useBlanks();
  const { temperatureUnit } = usePreferences();
  const [knownId, setKnownId] = useState<string | null>(null);
  const [platenC, setPlatenC] = useState<number | null>(null);
  const [thicknessMm, setThicknessMm] = useState<number | null>(null);
  const [request, setRequest] = useState<SuggestRequest | null>(null);
  const suggestion = useSuggestion(request);
  const others = (blanks.data ?? []).filter((one) => one.id !== blank.id && one.coating.kind !== 'none');
  return (
    <div className={styles.start}>
      <p>
        The dose of heat that another blank’s recipe gives its dye, worked out for {blank.name}. It is a place
        to begin: a few coupons make it sure.
      </p>
      <form
        className={styles.startForm}
        aria-label="A start recipe"
        onSubmit={(event) => {
          event.preventDefault();
          setRequest({
            blankId: blank.id,
            ...(knownId ? { knownBlankId: knownId } : {}),
            ...(pressId ? { pressId } : {}),
            ...(platenC === null ? {} : { platenC }),
            ...(thicknessMm === null ? {} : { thicknessMm }),
          });
        }}
      >
        <Select
          size="md"
          label="From the blank that works"
          placeholder="The one most like it"
          searchable
          clearable
          clearButtonProps={{ 'aria-label': 'The one most like it' }}
          data={others.map((one) => ({ value: one.id, label: one.name }))}
          value={knownId}
          onChange={setKnownId}
        />
        <TemperatureField
          label="At, true"
          valueC={platenC}
          minC={120}
          maxC={230}
          placeholder={`as there, e.g. ${temperatureText(200, temperatureUnit)}`}
          onChange={setPlatenC}
        />
        <FigureField
          label="Thickness of the new one"
          unit="mm"
          decimals={2}
          min={0.05}
          max={60}
          placeholder="usual for its kind"
          value={thicknessMm}
          onChange={setThicknessMm}
        />
        <div>
          <Button type="submit" size="md" variant="default" loading={suggestion.isFetching}>
            Work out a start recipe
          </Button>
        </div>
      </form>
      {suggestion.isLoading && <Working step="Following the heat through both" share={null} />}
      {request && suggestion.error && <ProblemNote error={suggestion.error} />}
      <Said text={suggestion.isFetching ? '' : (suggestion.data?.sentences[0] ?? '')} />
      {request && suggestion.data && !suggestion.error && (
        <Suggested
          blank={blank}
          pressId={pressId}
          suggestion={suggestion.data}
          busy={suggestion.isFetching}
        />
      )}
    </div>
  );
}

function Suggested(props: {
  readonly blank: Blank;
  readonly pressId: string | null;
  readonly suggestion: RecipeSuggestion;
  readonly busy: boolean;
}) {
  const { blank, pressId, suggestion } = props;
  const { temperatureUnit } = usePreferences();
  const adopting = useAdoptRecipe(blank.id);
  const { dwellSeconds, platenC, setC } = suggestion;
  const seconds = dwellSeconds === null ? null : Math.round(dwellSeconds.value);
  return (
    <div className={styles.suggested} aria-busy={props.busy}>
      {suggestion.sentences.map((sentence, i) => (
        <p key={sentence} className={i === 0 ? styles.big : undefined}>
          <Told text={sentence} />
        </p>
      ))}
      {seconds !== null && !adopting.data && (
        <div className="row">
          <Button
            loading={adopting.isPending}
            onClick={() =>
              adopting.mutate({
                from: 'heat',
                knownBlankId: suggestion.knownBlankId,
                dwellSeconds: seconds,
                platenC,
                ...(pressId ? { pressId } : {}),
              })
            }
          >
            Make {temperatureText(platenC, temperatureUnit)}, {secondsText(seconds)} its recipe
          </Button>
          <Link
            to="/press/ladder/new"
            search={{ blank: blank.id, ...(pressId ? { press: pressId } : {}), platenC, seconds }}
          >
            Press a ladder round it instead
          </Link>
        </div>
      )}
      {adopting.error && <ProblemNote error={adopting.error} />}
      {adopting.data && (
        <p role="status" className={styles.done}>
          Version {adopting.data.number} is now the recipe of {blank.name}.{' '}
          <Link to="/press/recipes/$blankId" params={{ blankId: blank.id }}>
            Its recipes
          </Link>
        </p>
      )}
      {suggestion.ladder.length > 0 && (
        <p>
          <strong>To make it sure,</strong> press coupons at {temperatureText(platenC, temperatureUnit)}
          {setC === Math.round(platenC) ? '' : ` (set ${temperatureText(setC, temperatureUnit)})`} for{' '}
          {listWords(suggestion.ladder.map((step) => secondsText(step.dwellSeconds)))}.
        </p>
      )}
      <Cautions cautions={suggestion.cautions} />
      <details className={styles.more}>
        <summary>What this was worked out with</summary>
        <ul>
          {suggestion.assumed.map((one) => (
            <li key={one}>
              <Told text={one} />
            </li>
          ))}
        </ul>
      </details>
    </div>
  );
}

const listWords = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
