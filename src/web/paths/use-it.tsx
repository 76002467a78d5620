import { Button, Select } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { ColourPath } from '#contract';
import { useColourPaths, useGivePath, useSetups } from '../api/index.js';
import { ProblemNote, Said } from '../frame/index.js';
import styles from './use-it.module.css';

/** Which print setups use it, and giving it to another. */
export function UseIt({ path }: { readonly path: ColourPath }) {
  const setups = useSetups();
  const paths = useColourPaths();
  const giving = useGivePath();
  const [chosen, setChosen] = useState<string | null>(null);
  const users = setups.data?.filter((setup) => setup.colourPathId === path.id) ?? [];
  const others = setups.data?.filter((setup) => setup.colourPathId !== path.id) ?? [];
  const usual = others.find((setup) => setup.id === path.belongsTo?.setup.id) ?? null;
  const setup = others.find((one) => one.id === chosen) ?? usual;
  const now = paths.data?.find((one) => one.id === setup?.colourPathId);
  return (
    <section aria-labelledby="use-title" className={styles.section}>
      <h2 id="use-title">Use it</h2>
      {setups.data && (
        <p>
          {users.length > 0 ? (
            <>
              Used by{' '}
              {users.map((one, i) => (
                <span key={one.id}>
                  {i > 0 && (i === users.length - 1 ? ' and ' : ', ')}
                  <Link to="/setups" search={{ open: `setup:${one.id}` }}>
                    {one.name}
                  </Link>
                </span>
              ))}
              : every sheet made with {users.length === 1 ? 'it' : 'them'} has this path baked in.
            </>
          ) : (
            'No print setup uses it yet.'
          )}
        </p>
      )}
      {others.length > 0 && (
        <div className={styles.give}>
          <Select
            size="md"
            label={users.length > 0 ? 'Give it to another print setup' : 'Give it to a print setup'}
            placeholder="Which one?"
            data={others.map((one) => ({ value: one.id, label: one.name }))}
            value={setup?.id ?? null}
            onChange={setChosen}
            description={now ? `Takes the place of “${now.name}” there` : undefined}
          />
          <Button
            size="md"
            disabled={!setup}
            loading={giving.isPending}
            onClick={() =>
              setup &&
              giving.mutate({ setupId: setup.id, pathId: path.id }, { onSuccess: () => setChosen(null) })
            }
          >
            Use it there
          </Button>
        </div>
      )}
      {giving.error && <ProblemNote error={giving.error} />}
      <Said text={giving.isSuccess ? `${giving.data.name} uses this path now.` : ''} />
    </section>
  );
}
