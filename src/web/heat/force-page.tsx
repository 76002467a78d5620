import { Radio, Select } from '@mantine/core';
import { useDebouncedValue, useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate, useSearch } from '@tanstack/react-router';
import { useState } from 'react';
import { type ForceQuestion, forceQuestionSchema, type Press } from '#contract';
import { fromPascal, toPascal } from '#craft/force';
import { useBlanks, useForce, usePresses } from '../api/index.js';
import { Cautions, FigureField, ProblemNote, Said, Told } from '../frame/index.js';
import styles from './heat.module.css';

const units = ['bar', 'psi', 'N/cm²'] as const;
type Unit = (typeof units)[number];

const settingLabels: Record<NonNullable<Press['drive']>['kind'], readonly [label: string, unit: string]> = {
  'air-cylinder': ['Its gauge shows', 'bar'],
  spring: ['Its screw is turned in by', 'turns'],
  weighed: ['Its own scale is at', ''],
};

/** Setting, force and pressure on the blank, each from the other. */
export function ForcePage() {
  useDocumentTitle('What the press pushes with · Dyewright');
  const search = useSearch({ from: '/press/force' });
  const navigate = useNavigate({ from: '/press/force' });
  const presses = usePresses();
  const blanks = useBlanks();
  const [from, setFrom] = useState<'setting' | 'pressure'>('setting');
  const [setting, setSetting] = useState<number | null>(null);
  const [pressure, setPressure] = useState<number | null>(null);
  const [unit, setUnit] = useState<Unit>('bar');
  const [areaCm2, setAreaCm2] = useState<number | null>(null);
  const known = presses.data?.filter((one) => one.drive !== null) ?? [];
  const press = presses.data?.find((one) => one.id === search.press) ?? null;
  const question = questionOf({
    ...(press?.drive ? { pressId: press.id } : {}),
    ...(areaCm2 === null ? (search.blank ? { blankId: search.blank } : {}) : { areaCm2 }),
    ...(from === 'setting'
      ? setting === null
        ? {}
        : { setting }
      : pressure === null
        ? {}
        : { pressureBar: fromPascal(toPascal(pressure, unit), 'bar') }),
  });
  const [asked] = useDebouncedValue(question, 250);
  const force = useForce(asked);
  const answer = asked && !force.error ? (force.data ?? null) : null;
  const [label, settingUnit] = settingLabels[press?.drive?.kind ?? 'air-cylinder'];
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <h1>{answer?.sentences[0] ?? 'What the press pushes with'}</h1>
        {!answer && (
          <p>
            What is set on a press is not what comes to the blank: the same air pushes harder on a coaster
            than on a shirt. Say the press and the blank, and one of the two.
          </p>
        )}
      </header>
      <Said text={answer?.sentences[0] ?? ''} />
      {presses.error && <ProblemNote error={presses.error} />}
      <div className={styles.force}>
        <form
          className={styles.question}
          aria-label="Setting or pressure"
          onSubmit={(event) => event.preventDefault()}
        >
          <Select
            size="md"
            label="Press"
            placeholder="Which press?"
            data={(presses.data ?? []).map((one) => ({
              value: one.id,
              label: one.drive === null ? `${one.name} · force not known` : one.name,
            }))}
            value={press?.id ?? null}
            onChange={(id) =>
              void navigate({
                search: (old) => ({ ...old, press: id ?? undefined }),
                replace: true,
                resetScroll: false,
              })
            }
          />
          {press && press.drive === null && (
            <p>
              Nobody has said how {press.name} makes its force.{' '}
              <Link to="/setups" search={{ open: `press:${press.id}` }}>
                Give its cylinder or spring, or weigh it
              </Link>
              {known.length === 0 ? '.' : ', or choose another.'}
            </p>
          )}
          <Select
            size="md"
            label="On"
            placeholder="Find a blank"
            searchable
            clearable
            clearButtonProps={{ 'aria-label': 'No blank' }}
            data={(blanks.data ?? []).map((one) => ({ value: one.id, label: one.name }))}
            value={search.blank ?? null}
            onChange={(id) =>
              void navigate({
                search: (old) => ({ ...old, blank: id ?? undefined }),
                replace: true,
                resetScroll: false,
              })
            }
          />
          <FigureField
            label="Pressed area"
            unit="cm²"
            unitName="square centimetres"
            decimals={1}
            min={0.5}
            max={50_000}
            placeholder={answer ? `${Math.round(answer.areaCm2)} cm², its face` : 'its face'}
            value={areaCm2}
            onChange={setAreaCm2}
          />
          <Radio.Group
            size="md"
            label="Known is"
            value={from}
            onChange={(value) => setFrom(value as typeof from)}
          >
            <div className={styles.two}>
              <Radio size="md" value="setting" label="what is set" />
              <Radio size="md" value="pressure" label="the pressure wanted" />
            </div>
          </Radio.Group>
          {from === 'setting' ? (
            <FigureField
              label={label}
              {...(settingUnit ? { unit: settingUnit } : {})}
              decimals={2}
              step={0.5}
              value={setting}
              onChange={setSetting}
            />
          ) : (
            <div className={styles.fields}>
              <FigureField
                label="Pressure on the blank"
                unit={unit}
                decimals={2}
                step={0.1}
                value={pressure}
                onChange={setPressure}
              />
              <Select
                size="md"
                label="In"
                data={[...units]}
                value={unit}
                allowDeselect={false}
                onChange={(next) => {
                  if (!next) return;
                  // The same pressure in the other unit, as typed figures would have it.
                  if (pressure !== null)
                    setPressure(Number(fromPascal(toPascal(pressure, unit), next as Unit).toFixed(2)));
                  setUnit(next as Unit);
                }}
              />
            </div>
          )}
        </form>
        <div className={styles.answer} aria-busy={force.isFetching}>
          {asked && force.error && <ProblemNote error={force.error} />}
          {answer ? (
            <>
              {answer.sentences.slice(1).map((sentence) => (
                <p key={sentence}>
                  <Told text={sentence} />
                </p>
              ))}
              <dl className={styles.facts}>
                <div>
                  <dt>Setting</dt>
                  <dd>
                    {tidy(answer.setting)} {answer.settingUnit}
                  </dd>
                </div>
                <div>
                  <dt>Force</dt>
                  <dd>{Math.round(answer.newtons)} N</dd>
                </div>
                <div>
                  <dt>Pressure on {Math.round(answer.areaCm2)} cm²</dt>
                  <dd>
                    {tidy(answer.pressureBar)} bar
                    <span>
                      {tidy(answer.pressurePsi)} psi · {tidy(answer.pressureNPerCm2)} N/cm²
                    </span>
                  </dd>
                </div>
              </dl>
              <Cautions cautions={answer.cautions} />
            </>
          ) : (
            !force.error && <p className="soft">{missingWords(press, search.blank ?? null, areaCm2)}</p>
          )}
        </div>
      </div>
      <p className={styles.foot}>
        <Link to="/press">Press</Link>
        {press && (
          <Link to="/setups" search={{ open: `press:${press.id}` }}>
            {press.name} in Setups
          </Link>
        )}
      </p>
    </div>
  );
}

const tidy = (value: number): string => String(Number(value.toPrecision(3)));

function missingWords(press: Press | null, blankId: string | null, areaCm2: number | null): string {
  if (!press) return 'Say which press.';
  if (press.drive === null) return 'Its force is not known yet.';
  if (blankId === null && areaCm2 === null) return 'Say what it presses on.';
  return 'Type what is set, or the pressure wanted.';
}

/** Complete or null. */
function questionOf(draft: Partial<ForceQuestion>): ForceQuestion | null {
  const one = draft.setting !== undefined || draft.pressureBar !== undefined;
  const on = draft.blankId !== undefined || draft.areaCm2 !== undefined;
  const checked = one && on ? forceQuestionSchema.safeParse(draft) : null;
  return checked?.success ? checked.data : null;
}
