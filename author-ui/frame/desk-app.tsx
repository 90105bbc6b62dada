import { useEffect, useRef } from 'react';
import markAddress from '../../shared/ui/mark.svg';
import { BenchPage } from '../bench-page/bench-page.tsx';
import { CrewPage } from '../crew/crew-page.tsx';
import { JoinPage } from '../crew/join-page.tsx';
import type { Shelf } from '../data/read-shelf.ts';
import { useShelf } from '../data/use-shelf.ts';
import { crewAddress, type DeskRoute, drillsAddress, guideAddress, shelfAddress, walksAddress } from '../desk-route.ts';
import { TreePage } from '../document/tree-page.tsx';
import { DrillsPage } from '../drill/drills-page.tsx';
import { EditPage } from '../edit/page/edit-page.tsx';
import { GuidePage } from '../guide/guide-page.tsx';
import { ProofPage } from '../proof/proof-page.tsx';
import { PublishPage } from '../publish/publish-page.tsx';
import { SheetPage } from '../sheet/sheet-page.tsx';
import { FolderBanners, FolderMark } from '../shelf/folder-bar.tsx';
import { ShelfPage } from '../shelf/shelf-page.tsx';
import { useDeskSnapshot } from '../store/use-desk-store.ts';
import { PicturePage } from '../walks/picture-page.tsx';
import { WalkPage } from '../walks/walk-page.tsx';
import { WalksPage } from '../walks/walks-page.tsx';
import { DeskBanners } from './desk-banners.tsx';
import { LoadFailed } from './load-failed.tsx';
import { Notice } from './notice.tsx';
import { useRoute } from './use-route.ts';

const PLACES = [
  { at: 'shelf', address: shelfAddress, text: 'Shelf' },
  { at: 'walks', address: walksAddress, text: 'Walks' },
  { at: 'drills', address: drillsAddress, text: 'Drills' },
  { at: 'crew', address: crewAddress, text: 'Crew' },
  { at: 'guide', address: guideAddress, text: 'Guide' },
] as const;

function pageOf(route: DeskRoute): string {
  if ('name' in route) return `${route.at} ${route.name}`;
  return route.at === 'walk' ? `walk ${route.walk}` : route.at;
}

export function DeskApp() {
  const route = useRoute();
  const { load, retry } = useShelf(route.at === 'shelf' || route.at === 'tree' || route.at === 'sheet');
  const main = useRef<HTMLElement>(null);
  const page = pageOf(route);
  const shown = useRef(page);

  // A new page begins at its top, for eyes and for a screen reader alike; a step of the same page is scrolled to by the page itself.
  useEffect(() => {
    if (shown.current === page) return;
    shown.current = page;
    window.scrollTo(0, 0);
    main.current?.focus({ preventScroll: true });
  }, [page]);

  return (
    <>
      <button type="button" className="skip-link" onClick={() => main.current?.focus()}>
        Skip to the page
      </button>
      <header className="desk-bar">
        <a className="wordmark" href={shelfAddress}>
          <img src={markAddress} alt="" width="24" height="24" />
          Ohmward <span>desk</span>
        </a>
        <nav aria-label="Desk">
          {PLACES.map(({ at, address, text }) => (
            <a key={at} href={address} aria-current={route.at === at ? 'page' : undefined}>
              {text}
            </a>
          ))}
          <a href="/field/">Field</a>
        </nav>
        <FolderMark />
      </header>
      <DeskBanners />
      <FolderBanners />
      <main id="main" ref={main} tabIndex={-1} aria-busy={load.state === 'loading'}>
        <Page route={route} load={load} retry={retry} />
      </main>
    </>
  );
}

function Page({ route, load, retry }: { readonly route: DeskRoute } & ReturnType<typeof useShelf>) {
  const stored = useDeskSnapshot().load.state;
  if (route.at === 'nowhere') {
    return (
      <Notice title="There is no such page">
        <p>
          The address <code>{route.hash}</code> leads nowhere on the desk. Nothing is lost.
        </p>
        <a className="button" href={shelfAddress}>
          Go to the shelf
        </a>
      </Notice>
    );
  }
  if (route.at === 'edit' && stored === 'ready')
    return <EditPage key={route.name} name={route.name} tries={route.tries === true} {...(route.step !== undefined && { step: route.step })} />;
  if (route.at === 'guide') return <GuidePage />;
  if (route.at === 'crew') return <CrewPage />;
  if (route.at === 'join') return <JoinPage {...(route.code !== undefined && { code: route.code })} />;
  if (route.at === 'walks') return <WalksPage />;
  if (route.at === 'walk') return <WalkPage key={route.walk} walk={route.walk} />;
  if (route.at === 'tree-picture') return <PicturePage key={route.name} name={route.name} />;
  if (route.at === 'drills') return <DrillsPage {...(route.query !== undefined && { query: route.query })} />;
  if (route.at === 'bench' && stored === 'ready') return <BenchPage name={route.name} />;
  if (route.at === 'proof' && stored === 'ready') return <ProofPage name={route.name} />;
  if (route.at === 'publish' && stored === 'ready') return <PublishPage name={route.name} />;
  switch (load.state) {
    case 'loading':
      return <p className="loading">Reading the trees…</p>;
    case 'failed':
      return <LoadFailed problem={load.problem} retry={retry} />;
    case 'ready':
      return <ReadyPage route={route} shelf={load.shelf} />;
  }
}

function ReadyPage({ route, shelf }: { readonly route: Exclude<DeskRoute, { at: 'nowhere' }>; readonly shelf: Shelf }) {
  switch (route.at) {
    case 'shelf':
      return <ShelfPage shelf={shelf} />;
    case 'sheet':
      return <SheetPage key={route.name} shelf={shelf} name={route.name} />;
    case 'tree':
      return <TreePage shelf={shelf} name={route.name} {...(route.step !== undefined && { step: route.step })} />;
  }
}
