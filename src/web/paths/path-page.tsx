import { Tabs } from '@mantine/core';
import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate, useParams, useSearch } from '@tanstack/react-router';
import type { ColourPath } from '#contract';
import { useChecksOfPath, useColourPath, usePathLook } from '../api/index.js';
import { ProblemNote, Working } from '../frame/index.js';
import { ArtworkSection } from './artwork-section.js';
import { ChecksSection } from './checks-section.js';
import { DoubtSection } from './doubt-section.js';
import { GamutSection } from './gamut/gamut-section.js';
import { GreysSection } from './greys-section.js';
import { MadeFrom } from './made-from.js';
import styles from './path-page.module.css';
import type { View } from './search.js';
import { Standing } from './standing.js';
import { standingWords } from './standing-words.js';
import { TakeIt } from './take-it.js';
import { UseIt } from './use-it.js';

/** One colour path: how far it can be trusted, whether it still fits, what it makes of colours, and what to do with it. */
export function PathPage() {
  const { pathId } = useParams({ from: '/paths/$pathId' });
  const path = useColourPath(pathId);
  useDocumentTitle(`${path.data?.name ?? 'Colour path'} · Dyewright`);
  if (path.error) return <ProblemNote error={path.error} onAgain={() => void path.refetch()} />;
  if (!path.data) return <h1>Looking it up…</h1>;
  return <Whole key={pathId} path={path.data} />;
}

function Whole({ path }: { readonly path: ColourPath }) {
  const { sentence, more } = standingWords(path);
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <p className={styles.name}>
          {path.name}
          {path.demo && <span className="demo-word"> · demo, invented</span>}
        </p>
        <h1>{sentence}</h1>
        {more.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </header>
      <div className={styles.columns}>
        <Standing path={path} />
        <div className={styles.doing}>
          <UseIt path={path} />
          <p>
            <Link to="/paths/$pathId/lookup" params={{ pathId: path.id }} className={styles.strong}>
              Look up a colour: what comes out of it?
            </Link>
          </p>
          <TakeIt path={path} />
        </div>
      </div>
      <Views path={path} />
    </div>
  );
}

const viewNames: Record<View, string> = {
  reach: 'Reach',
  greys: 'Greys',
  doubt: 'Doubt',
  artwork: 'Your artwork',
  checks: 'Checks',
  'made-from': 'Made from',
};

function Views({ path }: { readonly path: ColourPath }) {
  const { tab = 'reach' } = useSearch({ from: '/paths/$pathId' });
  const navigate = useNavigate({ from: '/paths/$pathId' });
  const look = usePathLook(path.id);
  const checks = useChecksOfPath(path.id);
  const measured = path.origin !== 'imported';
  const shown = (Object.keys(viewNames) as View[]).filter((view) => view !== 'doubt' || measured);
  const waiting = look.error ? (
    <ProblemNote error={look.error} onAgain={() => void look.refetch()} />
  ) : (
    <Working step="Working out what this path makes of colours" share={null} />
  );
  return (
    <Tabs
      value={shown.includes(tab) ? tab : 'reach'}
      onChange={(value) =>
        void navigate({
          search: (old) => ({ ...old, tab: (value ?? undefined) as View | undefined }),
          replace: true,
          resetScroll: false,
        })
      }
      keepMounted={false}
      classNames={{ list: styles.tabs, tab: styles.tab, panel: styles.panel }}
    >
      <Tabs.List aria-label="Views of this path">
        {shown.map((view) => (
          <Tabs.Tab key={view} value={view}>
            {viewNames[view]}
          </Tabs.Tab>
        ))}
      </Tabs.List>
      <Tabs.Panel value="reach">
        {look.data ? <GamutSection path={path} look={look.data} /> : waiting}
      </Tabs.Panel>
      <Tabs.Panel value="greys">
        {look.data ? <GreysSection path={path} look={look.data} /> : waiting}
      </Tabs.Panel>
      {measured && (
        <Tabs.Panel value="doubt">
          {look.data ? <DoubtSection path={path} look={look.data} /> : waiting}
        </Tabs.Panel>
      )}
      <Tabs.Panel value="artwork">
        <ArtworkSection path={path} />
      </Tabs.Panel>
      <Tabs.Panel value="checks">
        {checks.error ? (
          <ProblemNote error={checks.error} onAgain={() => void checks.refetch()} />
        ) : (
          checks.data && <ChecksSection path={path} checks={checks.data} />
        )}
      </Tabs.Panel>
      <Tabs.Panel value="made-from">
        <MadeFrom path={path} />
      </Tabs.Panel>
    </Tabs>
  );
}
